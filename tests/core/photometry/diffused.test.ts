import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { beamAngle_deg } from '../../../src/core/photometry/beam-angle.ts';
import { diffused } from '../../../src/core/photometry/diffused.ts';
import type { CandelaTable, Distribution } from '../../../src/core/photometry/distribution.ts';
import { flux_lm } from '../../../src/core/photometry/flux.ts';
import { intensityToward } from '../../../src/core/photometry/intensity.ts';
import { IDENTITY } from '../../tolerances.ts';
import { range, synthetic, table, towardA, towardC } from './fixture.ts';

const RADIANS = Math.PI / 180;
const LAMBERT: Distribution = { kind: 'lambert', peak_cd: 1000 };
const PENCIL = beam(0.5, 0.9);
const SPREADS_DEG = [2, 5, 12, 30, 60, 120, 180];

function beam(beam_deg: number, field_deg: number): Distribution {
  return { kind: 'beam', peak_cd: 1000, beam_deg, field_deg };
}

/** A bell about C 30, γ 40. */
function leaning(): CandelaTable {
  return table('C', range(0, 90, 2.5), range(0, 360, 2.5), (c, g) => {
    const [C, gamma] = [(c - 30) * RADIANS, g * RADIANS];
    const cosine =
      Math.cos(gamma) * Math.cos(40 * RADIANS) + Math.sin(gamma) * Math.sin(40 * RADIANS) * Math.cos(C);
    return 1000 * Math.max(0, cosine) ** 60;
  });
}

const LIGHTS: readonly (readonly [string, Distribution])[] = [
  ['a Lambertian face', LAMBERT],
  ['a pencil beam', PENCIL],
  ['a hard beam', beam(30, 31)],
  ['a spot', beam(8, 14)],
  ['a flood', beam(60, 100)],
  ['a lantern that also shines backward', beam(160, 350)],
  ['a one-plane table', synthetic('gauss-spot-C.ies').distribution],
  ['a table that ends bright at 60°', table('C', range(0, 60, 5), [0], () => 100)],
  ['an uneven type C table', synthetic('asym-C-h0-360.ies').distribution],
  ['a beam that leans', leaning()],
  ['a type A table', synthetic('field-typeA-full.ies').distribution],
  ['a type B table', synthetic('field-typeB-full.ies').distribution],
];

/** ∫ I p dω′ over the front by the midpoint rule about the direction looked toward. */
function scatteredBySum(light: Distribution, spread_deg: number, c_deg: number, gamma_deg: number): number {
  const m = Math.log(0.5) / Math.log(Math.cos((spread_deg / 2) * RADIANS));
  const [cosine, sine] = [Math.cos(gamma_deg * RADIANS), Math.sin(gamma_deg * RADIANS)];
  const [cosC, sinC] = [Math.cos(c_deg * RADIANS), Math.sin(c_deg * RADIANS)];
  const reach = Math.acos(1e-7 ** (1 / m));
  const [rings, sectors] = [200, 120];
  let sum = 0;
  for (let i = 0; i < rings; i++) {
    const delta = ((i + 0.5) / rings) * reach;
    const weight = ((m + 1) / (2 * Math.PI)) * Math.cos(delta) ** m * Math.sin(delta);
    for (let k = 0; k < sectors; k++) {
      const phi = (2 * Math.PI * (k + 0.5)) / sectors;
      const [x, y] = [Math.sin(delta) * Math.cos(phi), Math.sin(delta) * Math.sin(phi)];
      const a = Math.cos(delta) * cosine - x * sine;
      const out = Math.cos(delta) * sine + x * cosine;
      if (a > 0) sum += weight * intensityToward(light, out * cosC - y * sinC, out * sinC + y * cosC, a);
    }
  }
  return (sum * reach * 2 * Math.PI) / (rings * sectors);
}

describe('diffusion', () => {
  it.each(LIGHTS)('keeps the flux of %s', (_, light) => {
    for (const [direct, spread_deg] of [
      [0, 5],
      [0.3, 60],
    ] as const) {
      const widened = diffused(light, direct, spread_deg) as CandelaTable;
      expect(Math.abs(flux_lm(widened) / flux_lm(light) - 1)).toBeLessThan(IDENTITY * 10);
      expect(widened.candela.every((I) => I >= 0 && Number.isFinite(I))).toBe(true);
    }
  });

  it.each(LIGHTS.filter(([, light]) => light !== PENCIL))(
    'sums %s up as a fine double integral does',
    (_, light) => {
      // derived: the definition, by the midpoint rule, too coarse for a pencil beam. One k for all directions.
      const spread_deg = 20;
      const widened = diffused(light, 0, spread_deg);
      const toward = [0, 50, 200].flatMap((c) =>
        [0, 4, 9, 16, 25, 40, 60, 88].map((gamma) => [c, gamma] as const),
      );
      const sums = toward.map(([c, gamma]) => scatteredBySum(light, spread_deg, c, gamma));
      const peak = Math.max(...sums);
      const k = towardC(widened, ...toward[sums.indexOf(peak)]!) / peak;
      for (const [i, [c, gamma]] of toward.entries())
        expect(Math.abs(towardC(widened, c, gamma) / k - sums[i]!)).toBeLessThan(0.003 * peak);
    },
  );

  it.each(LIGHTS)('that lets all of it straight on leaves %s as it is', (_, light) => {
    expect(diffused(light, 1, 30)).toBe(light);
  });

  it('takes from the peak of a pencil beam what it scatters, and puts the lobe there', () => {
    // derived: I′(0) = direct·I₀ + (1 − direct)·Φ·(m + 1)/(2π), for a beam of no width.
    for (const spread_deg of [12, 30, 60, 120]) {
      const m = Math.log(0.5) / Math.log(Math.cos((spread_deg / 2) * RADIANS));
      for (const direct of [0, 0.3, 0.9]) {
        const peak_cd = towardC(diffused(PENCIL, direct, spread_deg), 0, 0);
        const expected = direct * 1000 + (1 - direct) * flux_lm(PENCIL) * ((m + 1) / (2 * Math.PI));
        expect(Math.abs(peak_cd / expected - 1)).toBeLessThan(0.003);
      }
    }
  });

  it('gives a pencil beam the shape of the lobe', () => {
    // derived: p(γ) ∝ cos^m γ; 120° is Lambert's cosine.
    for (const spread_deg of [12, 60, 120]) {
      const m = Math.log(0.5) / Math.log(Math.cos((spread_deg / 2) * RADIANS));
      const widened = diffused(PENCIL, 0, spread_deg);
      for (const gamma of range(0, 85, 2.5)) {
        const share = towardC(widened, 70, gamma) / towardC(widened, 0, 0);
        expect(Math.abs(share - Math.cos(gamma * RADIANS) ** m)).toBeLessThan(0.004);
      }
      expect(beamAngle_deg(widened).mean_deg).toBeCloseTo(spread_deg, 0);
    }
  });

  it('hardly changes a Lambertian face, for which a narrow lobe has no edge to soften but the one at 90°', () => {
    // derived: a cosine is an eigenfunction of every lobe, so that its shape stays where the lobe does not reach past 90°.
    for (const spread_deg of [5, 20]) {
      const widened = diffused(LAMBERT, 0, spread_deg);
      for (const gamma of range(0, 90 - 2 * spread_deg, 5)) {
        const share = towardC(widened, 0, gamma) / towardC(widened, 0, 0);
        expect(Math.abs(share - Math.cos(gamma * RADIANS))).toBeLessThan(0.001);
      }
      expect(Math.abs(towardC(widened, 0, 0) / 1000 - 1)).toBeLessThan(0.02);
    }
  });

  it('widens a beam the more the wider it spreads', () => {
    // Not so a hard-edged beam, whose half-way point first creeps inward.
    for (const light of [PENCIL, beam(8, 14), beam(30, 55), beam(60, 100)]) {
      let before = beamAngle_deg(light).mean_deg;
      for (const spread_deg of SPREADS_DEG) {
        const { mean_deg } = beamAngle_deg(diffused(light, 0, spread_deg));
        // A lobe below a fifth of the beam adds less than the table resolves.
        expect(mean_deg).toBeGreaterThan(before - 0.001 * before);
        if (spread_deg > before / 5) expect(mean_deg).toBeGreaterThan(before);
        before = mean_deg;
      }
    }
  });

  it('adds a narrow lobe to a narrow beam as bell curves add', () => {
    // derived: both are Gaussian to second order: widths² add.
    const gaussian = beam(6, 6 * Math.sqrt(Math.log2(10)));
    const { mean_deg } = beamAngle_deg(diffused(gaussian, 0, 8));
    expect(mean_deg).toBeCloseTo(10, 1);
  });

  it('leaves alone what the lamp sends backward, and sends none there itself', () => {
    const light = beam(160, 350);
    const widened = diffused(light, 0.2, 50);
    for (const gamma of [91, 100, 130, 170]) {
      const ratio = towardC(widened, 20, gamma) / towardC(light, 20, gamma);
      expect(Math.abs(ratio - 1)).toBeLessThan(0.002);
    }
    expect(towardC(diffused(LAMBERT, 0, 90), 0, 90.01)).toBe(0);
  });

  it('is not met by light that only goes backward', () => {
    const up = synthetic('uplight-C-v90-180.ies').distribution;
    expect(diffused(up, 0.2, 40)).toBe(up);
  });

  it('has one plane when the light has, and planes 5° apart at most otherwise', () => {
    for (const light of [LAMBERT, beam(20, 40), synthetic('cos10-flood-C.ies').distribution]) {
      const widened = diffused(light, 0.2, 30) as CandelaTable;
      expect(widened.goniometry).toBe('C');
      expect(Array.from(widened.horizontal_deg)).toEqual([0]);
    }
    for (const name of ['asym-C-h0-360.ies', 'field-typeA-full.ies', 'field-typeB-full.ies']) {
      const { horizontal_deg } = diffused(synthetic(name).distribution, 0.2, 30) as CandelaTable;
      expect([horizontal_deg[0], horizontal_deg.at(-1)]).toEqual([0, 360]);
      for (let i = 1; i < horizontal_deg.length; i++)
        expect(horizontal_deg[i]! - horizontal_deg[i - 1]!).toBeLessThanOrEqual(5);
    }
  });

  it('has angles close enough for what is left of a narrow beam', () => {
    const { vertical_deg } = diffused(beam(4, 7), 0.3, 40) as CandelaTable;
    const within = Array.from(vertical_deg).filter((gamma) => gamma <= 7);
    for (let i = 1; i < within.length; i++) expect(within[i]! - within[i - 1]!).toBeLessThanOrEqual(0.5);
  });

  it('turns with the light', () => {
    // derived: a light that leans to C 30 or to C 120 is one light, turned a quarter about the axis.
    const light = leaning();
    const turned = table('C', Array.from(light.vertical_deg), Array.from(light.horizontal_deg), (c, g) =>
      towardC(light, (c + 270) % 360, g),
    );
    const [one, other] = [diffused(light, 0.2, 30), diffused(turned, 0.2, 30)];
    for (const [c, g] of [
      [0, 20],
      [30, 40],
      [75, 60],
      [200, 10],
      [355, 85],
    ] as const)
      expect(towardC(other, (c + 90) % 360, g)).toBeCloseTo(towardC(one, c, g), 6);
  });

  it('keeps the mirror symmetry of the light', () => {
    const light = synthetic('field-typeB-full.ies').distribution;
    const even = table('B', range(-90, 90, 5), range(-90, 90, 5), (h, v) =>
      towardA(light, Math.abs(h), Math.abs(v)),
    );
    const widened = diffused(even, 0.1, 40);
    for (const [c, g] of [
      [20, 15],
      [50, 40],
      [85, 70],
    ] as const) {
      const I = towardC(widened, c, g);
      for (const mirrored of [180 - c, 180 + c, 360 - c])
        expect(towardC(widened, mirrored, g) / I).toBeCloseTo(1, 6);
    }
  });

  it('lays a beam that leans where it leaned, as wide as a straight one becomes', () => {
    // derived: on the sphere a beam off the axis widens as one on it does. Both lose nothing past 90°.
    const straight = diffused(
      table('C', range(0, 90, 0.5), [0], (_, g) => 1000 * Math.cos(g * RADIANS) ** 60),
      0,
      20,
    );
    const widened = diffused(leaning(), 0, 20);
    for (const away of [0, 5, 10, 15, 20, 30]) {
      const expected = towardC(straight, 0, away);
      for (const gamma of [40 - away, 40 + away])
        expect(Math.abs(towardC(widened, 30, gamma) - expected)).toBeLessThan(0.01 * towardC(straight, 0, 0));
    }
  });

  it('makes something of every beam, spread and share', () => {
    fc.assert(
      fc.property(
        fc.double({ min: 0.5, max: 170, noNaN: true }),
        fc.double({ min: 1.01, max: 2, noNaN: true }),
        fc.double({ min: 0, max: 0.99, noNaN: true }),
        fc.double({ min: 5, max: 180, noNaN: true }),
        (beam_deg, wider, direct, spread_deg) => {
          const light = beam(beam_deg, beam_deg * wider);
          const widened = diffused(light, direct, spread_deg);
          if (widened.kind !== 'table') throw new Error('only all of it straight on gives the beam itself');
          const { vertical_deg, candela } = widened;
          expect(Math.abs(flux_lm(widened) / flux_lm(light) - 1)).toBeLessThan(IDENTITY * 10);
          expect(candela.every((I) => I >= 0)).toBe(true);
          expect(vertical_deg.every((gamma, i) => i === 0 || gamma > vertical_deg[i - 1]!)).toBe(true);
        },
      ),
      { seed: 71, numRuns: 40 },
    );
  });

  it.each([-0.1, 1.1, 25, Number.NaN])('refuses a direct share of %d', (direct) => {
    expect(() => diffused(LAMBERT, direct, 30)).toThrow(`direct share of the diffusion is ${direct}`);
  });
  it.each([0, 1, 200, Number.NaN])('refuses a spread of %d°', (spread_deg) => {
    expect(() => diffused(LAMBERT, 1, spread_deg)).toThrow(`spread of the diffusion is ${spread_deg}`);
  });
});
