import { describe, expect, it } from 'vitest';
import { diffused } from '../../../src/core/photometry/diffused.ts';
import type { Distribution } from '../../../src/core/photometry/distribution.ts';
import { flux_lm } from '../../../src/core/photometry/flux.ts';
import { intensityToward } from '../../../src/core/photometry/intensity.ts';
import { linearRgbFromXyz } from '../../../src/core/picture/linear-rgb.ts';
import { colourGel } from '../../../src/core/spectra/colour-gel.ts';
import { colourTemperatureOf } from '../../../src/core/spectra/colour-temperature.ts';
import { greenGel } from '../../../src/core/spectra/green-gel.ts';
import { luminousFraction } from '../../../src/core/spectra/observer.ts';
import { planckSpectrum } from '../../../src/core/spectra/planck.ts';
import { product } from '../../../src/core/spectra/wavelengths.ts';
import { behindDiffusion } from '../../../src/scene/compile/behind-diffusion.ts';
import { compileScene, newCompileMemo } from '../../../src/scene/compile/compile-scene.ts';
import { filtered } from '../../../src/scene/compile/lamp-light.ts';
import type { SceneFiles } from '../../../src/scene/files/scene-files.ts';
import { LIBRARY } from '../../../src/scene/library/library.ts';
import { meterScene } from '../../../src/scene/meter/meter-scene.ts';
import type { Filter } from '../../../src/scene/schema/filter.ts';
import { linesOf, opened, smallScene } from '../../support/scenes.ts';

const NO_FILES: SceneFiles = { photometry: new Map(), meshes: new Map() };
const TUNGSTEN = planckSpectrum(3200);

const AMBER: Filter = {
  kind: 'colour',
  band: { shape: 'long-pass', edge_nm: 550 },
  softness_nm: 45,
  top: 0.9,
  floor: 0.03,
};
const MINUS_GREEN: Filter = { kind: 'green', density: -0.15 };
const SHEET: Filter = { kind: 'diffusion', transmission: 0.5, direct: 0.1, spread_deg: 60 };
const FROST: Filter = { kind: 'diffusion', transmission: 0.8, direct: 0.4, spread_deg: 15 };

/** The small scene, its lamp a point 4 m from its mark, behind filters. */
function behind(filters: readonly Filter[], aim_m: [number, number, number] = [0, 1, 0]) {
  const scene = smallScene();
  scene.solids = [];
  scene.heads!.plain!.face = { shape: 'disc', diameter_m: 0.001 };
  scene.filters = Object.fromEntries(filters.map((filter, i) => [`f-${i}`, filter]));
  Object.assign(scene.lamps![0]!, { filters: Object.keys(scene.filters), aim_m });
  return opened(scene);
}

function lampBehind(filters: readonly Filter[], memo = newCompileMemo()) {
  return compileScene(behind(filters), NO_FILES, LIBRARY, memo).lamps[0]!;
}

describe('a green and a colour filter', () => {
  it('take what their spectra take of the lamp’s own light', () => {
    // derived: ∫SτV/∫SV with the product of the spectra.
    const tau = product(colourGel(AMBER), greenGel(-0.15));
    const { spectrum, transmission } = filtered(TUNGSTEN, [AMBER, MINUS_GREEN]);
    expect(transmission).toBeCloseTo(luminousFraction(TUNGSTEN, tau), 12);
    expect(Array.from(spectrum)).toEqual(Array.from(product(TUNGSTEN, tau)));
  });

  it('leave the distribution alone', () => {
    const plain = lampBehind([]);
    expect(lampBehind([AMBER, MINUS_GREEN]).distribution).toEqual(plain.distribution);
  });
});

describe('diffusion', () => {
  it('costs the lamp its loss and widens it, and leaves its colour alone', () => {
    const [plain, soft] = [lampBehind([]), lampBehind([SHEET])];
    expect(soft.gain).toBeCloseTo(0.5, 12);
    expect(soft.filterLoss_stops).toBeCloseTo(1, 12);
    expect(soft.colour_XYZ).toEqual(plain.colour_XYZ);
    expect(soft.distribution).toEqual(diffused(plain.distribution, 0.1, 60));
    expect(flux_lm(soft.distribution) / flux_lm(plain.distribution)).toBeCloseTo(1, 9);
  });

  it('stacks: losses multiply, each sheet widens what the one before left', () => {
    const plain = lampBehind([]);
    const stack = lampBehind([FROST, MINUS_GREEN, SHEET, { kind: 'net', stops: 1 }]);
    // derived: 0.8 · 0.5 · 2^−1 · what the gel passes.
    const gel = luminousFraction(TUNGSTEN, greenGel(-0.15));
    expect(stack.gain).toBeCloseTo(0.2 * gel, 9);
    expect(stack.filterLoss_stops).toBeCloseTo(-Math.log2(0.2 * gel), 9);
    expect(stack.distribution).toEqual(diffused(diffused(plain.distribution, 0.4, 15), 0.1, 60));
  });

  it('is what the mark reads: less on the axis, more beside the beam', () => {
    // derived: E = gain · I′(γ) · cos γ/d² of a point, I′ the widened candela; the mark faces +z, the lamp hangs at z = 4.
    for (const [x_m, gamma] of [
      [0, 0],
      [8, Math.atan2(8, 4)],
    ] as const) {
      const reading = (filters: readonly Filter[]) => {
        const scene = behind(filters, [x_m, 1, 0]);
        return meterScene(scene, compileScene(scene, NO_FILES), { light: 'direct' }).marks[0]!.illuminance_lx;
      };
      const candela = (d: Distribution) => intensityToward(d, Math.sin(gamma), 0, Math.cos(gamma));
      const { distribution } = lampBehind([]);
      const widened = diffused(distribution, 0.1, 60);
      const expected = (0.5 * candela(widened)) / 3.99 ** 2;
      expect(Math.abs(reading([SHEET]) / expected - 1)).toBeLessThan(1e-4);
      expect(reading([SHEET]) < reading([])).toBe(x_m === 0);
    }
  });

  it('is worked out once for a head that stays as it is', () => {
    const memo = newCompileMemo();
    const first = lampBehind([FROST, SHEET], memo).distribution;
    expect(lampBehind([FROST, SHEET], memo).distribution).toBe(first);
    expect(lampBehind([SHEET, FROST], memo).distribution).not.toBe(first);
    const wider: Filter = { ...SHEET, spread_deg: 61 };
    expect(lampBehind([FROST, wider], memo).distribution).not.toEqual(first);
  });

  it('forgets the oldest of many, and still gives the same', () => {
    const lamp: Distribution = { kind: 'beam', peak_cd: 1, beam_deg: 20, field_deg: 35 };
    const at = (spread_deg: number) =>
      behindDiffusion(lamp, [{ kind: 'diffusion', transmission: 1, direct: 0, spread_deg }]);
    const first = at(40);
    const second = at(41);
    for (let spread_deg = 42; spread_deg < 54; spread_deg++) at(spread_deg);
    expect(at(40)).toBe(first);
    for (let spread_deg = 60; spread_deg < 75; spread_deg++) at(spread_deg);
    expect(at(40)).toBe(first);
    expect(at(41)).not.toBe(second);
    expect(at(41)).toEqual(second);
  });
});

describe('the library’s filters', () => {
  const white = filtered(TUNGSTEN, []).colour_XYZ;
  /** Linear RGB of a filtered lamp, each component beside that of the bare lamp. */
  const tint = (name: string) => {
    const { colour_XYZ, transmission } = filtered(TUNGSTEN, [LIBRARY.filters[name]!]);
    const bare = linearRgbFromXyz(white);
    return linearRgbFromXyz(colour_XYZ).map((value, c) => (transmission * value) / bare[c]!);
  };

  // derived: from the words. Red, green and blue, strongest first; what stands together may be either way round.
  it.each([
    ['deep-red', 'r>gb'],
    ['red', 'r>gb'],
    ['orange', 'r>g>b'],
    ['amber', 'r>g>b'],
    ['straw', 'rg>b'],
    ['pale-yellow', 'rg>b'],
    ['yellow', 'rg>b'],
    ['yellow-green', 'g>r>b'],
    ['moss-green', 'g>r>b'],
    ['green', 'g>rb'],
    ['deep-green', 'g>rb'],
    ['blue-green', 'bg>r'],
    ['cyan', 'bg>r'],
    ['pale-blue', 'b>g>r'],
    ['sky-blue', 'b>g>r'],
    ['blue', 'b>rg'],
    ['deep-blue', 'b>rg'],
    ['violet', 'b>r>g'],
    ['lavender', 'b>r>g'],
    ['purple', 'b>r>g'],
    ['magenta', 'rb>g'],
    ['rose', 'r>b>g'],
    ['pink', 'r>b>g'],
  ])('%s is %s', (name, order) => {
    const parts = Object.fromEntries(tint(name).map((value, c) => ['rgb'[c]!, value]));
    const groups = order.split('>').map((group) => group.split('').map((letter) => parts[letter]!));
    for (let i = 1; i < groups.length; i++)
      expect(Math.min(...groups[i - 1]!)).toBeGreaterThan(Math.max(...groups[i]!));
  });

  it('deep colours cost more than plain ones, and those more than pale ones', () => {
    const loss = (name: string) => -Math.log2(filtered(TUNGSTEN, [LIBRARY.filters[name]!]).transmission);
    for (const [more, less] of [
      ['deep-red', 'red'],
      ['red', 'rose'],
      ['rose', 'pink'],
      ['deep-green', 'green'],
      ['deep-blue', 'blue'],
      ['blue', 'sky-blue'],
      ['sky-blue', 'pale-blue'],
      ['purple', 'lavender'],
      ['yellow', 'pale-yellow'],
      ['diffusion-heavy', 'diffusion-medium'],
      ['diffusion-medium', 'diffusion-light'],
      ['diffusion-light', 'frost'],
    ] as const)
      expect(loss(more)).toBeGreaterThan(loss(less));
  });

  it('green gels step evenly from full minus to full plus, and have halves that make a whole', () => {
    const duv = (...names: string[]) =>
      colourTemperatureOf(
        filtered(
          TUNGSTEN,
          names.map((name) => LIBRARY.filters[name]!),
        ).colour_XYZ,
      )!.duv;
    const steps = ['full', 'half', 'quarter', 'eighth'];
    const rising = [
      ...steps.map((step) => duv(`${step}-minus-green`)),
      duv(),
      ...steps.reverse().map((step) => duv(`${step}-plus-green`)),
    ];
    for (let i = 1; i < rising.length; i++) expect(rising[i]!).toBeGreaterThan(rising[i - 1]!);
    // derived: densities add, so two halves are a full, whatever else the model is.
    expect(duv('half-plus-green', 'half-plus-green')).toBeCloseTo(duv('full-plus-green'), 9);
    expect(duv('half-minus-green', 'half-minus-green')).toBeCloseTo(duv('full-minus-green'), 9);
  });
});

describe('what no filter can be', () => {
  it.each([
    ['filters.rose.floor', 0.95, 'filters.rose.floor: found 0.95; expected a floor below the top'],
    ['filters.amber.top', 1, 'filters.amber.top: found 1; expected at most 0.95'],
    [
      'filters.amber.band.shape',
      'longpass',
      'filters.amber.band.shape: found "longpass"; expected one of long-pass, short-pass, band-pass, notch; did you mean "long-pass"?',
    ],
    [
      'filters.amber.band.edge',
      550,
      'filters.amber.band.edge: found an unknown field "edge"; expected only shape, edge_nm; did you mean "edge_nm"?',
    ],
    ['filters.moss.band.width_nm', 0, 'filters.moss.band.width_nm: found 0; expected at least 5 nm'],
    ['filters.minus-green.density', 30, 'filters.minus-green.density: found 30; expected at most 0.3'],
    ['filters.frost.spread_deg', 0.5, 'filters.frost.spread_deg: found 0.5; expected at least 2°'],
    ['filters.frost.transmission', 0, 'filters.frost.transmission: found 0; expected more than 0'],
    ['filters.frost.direct', 50, 'filters.frost.direct: found 50; expected at most 1 (50 % is 0.5)'],
  ])('%s = %j', (path, value, line) => expect(linesOf({ [path]: value })).toEqual([line]));
});
