import { describe, expect, it } from 'vitest';
import { aboutLength } from '../../../src/editor/properties/costs/about-length.ts';
import { beamWidth_m } from '../../../src/editor/properties/costs/beam-width.ts';
import { filterCost, kelvinText, lossText } from '../../../src/editor/properties/costs/filter-cost.ts';
import { headOutput, lightAtAim } from '../../../src/editor/properties/costs/light-at-aim.ts';
import { stopsWord } from '../../../src/editor/properties/costs/stops-word.ts';
import {
  baseReflectance,
  filterHex,
  materialHex,
} from '../../../src/editor/properties/costs/swatch-colour.ts';
import { LIBRARY } from '../../../src/scene/library/library.ts';
import type { Head } from '../../../src/scene/schema/head.ts';
import type { Lamp } from '../../../src/scene/schema/lamp.ts';

const NOTHING = { heads: undefined, filters: undefined, haze: undefined };
const lamp = (changes: Partial<Lamp> = {}): Lamp => ({
  id: 'one',
  head: 'discharge-1800-flood',
  position_m: [0, 3, 0],
  aim_m: [25, 3, 0],
  ...changes,
});

describe('a lamp at the point it is aimed at', () => {
  it('gives its candela over the square of its throw', () => {
    // derived: E = I/d² = 140 000/25² = 224 lx; a face of 0.3 m at 25 m is a point to 4e-5
    const light = lightAtAim(NOTHING, lamp())!;
    expect(light.illuminance_lx / 224).toBeCloseTo(1, 2);
    expect(light.distance_m).toBe(25);
    expect(light.uncertainty_stops).toBeCloseTo(2 / 3, 6);
  });

  it('loses what haze of 200 m visibility takes on the way, and is known less well', () => {
    // derived: exp(−3.912·25/200) = 0.6133, so 137.4 lx
    const light = lightAtAim({ ...NOTHING, haze: { visibility_m: 200 } }, lamp())!;
    expect(light.illuminance_lx / 137.4).toBeCloseTo(1, 2);
    expect(light.uncertainty_stops).toBeGreaterThan(0.9);
  });

  it('counts its level, and is asked of a lamp that is off as if it were on', () => {
    const light = lightAtAim(NOTHING, lamp({ level: 0.5, on: false }))!;
    expect(light.illuminance_lx / 112).toBeCloseTo(1, 2);
  });

  it('near a large face falls short of the inverse square', () => {
    // derived: for a Lambertian disc of flux Φ, E on the axis is Φ/(π·(d² + R²)), here 1000/(π·1.25)
    const heads = {
      soft: {
        photometry: { kind: 'diffuse', flux_lm: 1000 },
        face: { shape: 'disc', diameter_m: 1 },
        spectrum: { kind: 'led', cct_K: 5600 },
      } satisfies Head,
    };
    const near = lamp({ head: 'soft', aim_m: [1, 3, 0] });
    expect(lightAtAim({ ...NOTHING, heads }, near)!.illuminance_lx / 254.65).toBeCloseTo(1, 2);
    expect(headOutput('soft', heads.soft)).toMatchObject({ flux_lm: 1000, uncertainty_stops: 1 });
  });

  it('is not known while its file is elsewhere, or is no file', () => {
    const base = {
      face: { shape: 'disc', diameter_m: 0.2 },
      spectrum: { kind: 'led', cct_K: 5600 },
    } as const;
    const elsewhere: Head = { ...base, photometry: { kind: 'file', file: 'a.ies' } };
    const broken: Head = { ...base, photometry: { kind: 'file', file: 'a.ies', text: 'nonsense' } };
    expect(lightAtAim({ ...NOTHING, heads: { it: elsewhere } }, lamp({ head: 'it' }))).toBeNull();
    expect(headOutput('it', broken)).toBeNull();
  });

  it('draws a beam as wide as its angle', () => {
    // derived: 2·10·tan 25° = 9.326 m
    expect(beamWidth_m(50, 10)).toBeCloseTo(9.326, 3);
    expect(beamWidth_m(180, 10)).toBeNull();
    expect(aboutLength(9.326, 'metric')).toBe('9.33 m');
    expect(aboutLength(25.28, 'metric')).toBe('25.3 m');
  });
});

describe('what filters cost', () => {
  it('adds up in stops and in mired', () => {
    const { filters } = LIBRARY;
    const daylight = { kind: 'daylight', cct_K: 5600 } as const;
    const half = filterCost(daylight, [filters['half-cto']!]);
    // published: swatch books state about 0.71 for half orange, 0.49 stop; from memory, ±0.03
    expect(half.loss_stops).toBeGreaterThan(0.4);
    expect(half.loss_stops).toBeLessThan(0.6);
    // derived: 178.6 + 109 = 287.6 mired is 3477 K; a gel is good to some 10 mired
    expect(Math.abs(1e6 / half.cct_K! - 287.6)).toBeLessThan(10);
    const both = filterCost(daylight, [filters['half-cto']!, filters['nd-03']!]);
    expect(both.loss_stops - half.loss_stops).toBeCloseTo(1, 6);
    expect(both.loss_uncertainty_stops).toBeCloseTo(Math.hypot(0.25, 0.1), 12);
    expect(filterCost(daylight, [])).toMatchObject({ loss_uncertainty_stops: 0 });
  });

  it('gives no kelvin to what is no white', () => {
    const { cct_K } = filterCost({ kind: 'planck', cct_K: 3200 }, [LIBRARY.filters['deep-red']!]);
    expect(kelvinText(cct_K)).toBe('a colour, no white');
    expect([3477, 5633, 10_550, 228_500].map(kelvinText)).toEqual([
      '3500 K',
      '5600 K',
      '10500 K',
      'over 25\u202f000 K',
    ]);
    expect([lossText(0.487), lossText(1), lossText(2.93)]).toEqual([
      '\u22120.49 stop',
      '\u22121.00 stop',
      '\u22122.93 stops',
    ]);
  });
});

describe('a swatch', () => {
  it('of a grey is grey, and lighter the more it reflects', () => {
    const grey = materialHex(LIBRARY.materials['grey-card']!);
    expect(grey).toMatch(/^#(..)\1\1$/);
    const lightness = (name: string) =>
      Number.parseInt(materialHex(LIBRARY.materials[name]!).slice(1, 3), 16);
    const ladder = ['velvet-black', 'wool-dark', 'wool-grey', 'grey-card', 'concrete', 'white-card'].map(
      lightness,
    );
    expect(ladder).toEqual([...ladder].sort((a, b) => a - b));
  });

  it('of a colour has its hue', () => {
    const parts = (hex: string) => [1, 3, 5].map((i) => Number.parseInt(hex.slice(i, i + 2), 16));
    const [r, g, b] = parts(materialHex(LIBRARY.materials['wool-red']!));
    expect(r).toBeGreaterThan(2 * Math.max(g!, b!));
    const [, , blue] = parts(filterHex(LIBRARY.filters['full-ctb']!));
    const [red] = parts(filterHex(LIBRARY.filters['full-ctb']!));
    expect(blue).toBeGreaterThan(red!);
    expect(baseReflectance(LIBRARY.materials['wool-red']!)).toEqual([0.2, 0.03, 0.03]);
  });
});

describe('stops in words', () => {
  it('are one stop up to one, stops beyond', () => {
    expect(['+1', '\u22120⅔', '0', '+1⅓', '\u22122', '\u2212∞'].map(stopsWord)).toEqual([
      '+1 stop',
      '\u22120⅔ stop',
      '0 stops',
      '+1⅓ stops',
      '\u22122 stops',
      '\u2212∞ stops',
    ]);
  });
});
