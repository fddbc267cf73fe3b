import { describe, expect, it } from 'vitest';
import { evenSplit } from '../../src/core/spectra/even-split.ts';
import { kelvinFromMired, miredFromKelvin } from '../../src/core/spectra/mired.ts';
import { balanceScene } from '../../src/scene/balance/balance-scene.ts';
import { whiteBalanceReport } from '../../src/scene/balance/white-balance.ts';
import { compileScene } from '../../src/scene/compile/compile-scene.ts';
import type { SceneDocument } from '../../src/scene/schema/document.ts';
import { EXPOSURE_STOPS, halfLastDigit } from '../tolerances.ts';
import { backlightScene, NO_FILES, straight } from './support/backlight.ts';

/** Two 5600 K heads of 2250 cd, 250 lx at 3 m, one clean and one behind half orange; both square to the mark. */
function twoHeads(): SceneDocument {
  return backlightScene({
    filters: {
      'half-orange': { kind: 'conversion', shift_mired: 109, transmission: 0.71 },
      'half-blue': { kind: 'conversion', shift_mired: -78, transmission: 0.55 },
    },
    heads: {
      small: {
        photometry: { kind: 'beam', peak_cd: 2250, beam_deg: 40, field_deg: 60 },
        face: { shape: 'disc', diameter_m: 0.05 },
        spectrum: { kind: 'planck', cct_K: 5600 },
      },
    },
    lamps: [
      { id: 'clean', head: 'small', position_m: [3, 1, 0], aim_m: [0, 1, 0], on: false },
      { id: 'warm', head: 'small', position_m: [3, 1, 0], aim_m: [0, 1, 0], filters: ['half-orange'] },
    ],
    marks: [{ id: 'face', position_m: [0, 1, 0], facing: [1, 0, 0], receptor: 'flat' }],
  });
}

const compile = (document: SceneDocument) => compileScene(document, NO_FILES);
const withLamp = (document: SceneDocument, index: number, changes: object): SceneDocument => ({
  ...document,
  lamps: document.lamps!.map((lamp, i) => (i === index ? { ...lamp, ...changes } : lamp)),
});

describe('S9: half orange on a 5600 K head', () => {
  it('by mired: 3477 K, and half blue 9940 K', () => {
    // derived: 10⁶/5600 = 178.57; + 109 = 287.57 → 3477.4 K; − 78 = 100.57 → 9943 K.
    expect(Math.abs(kelvinFromMired(miredFromKelvin(5600) + 109) - 3477)).toBeLessThan(halfLastDigit(0));
    expect(Math.abs(kelvinFromMired(miredFromKelvin(5600) - 78) - 9940)).toBeLessThan(5);
  });

  it("by its spectrum: within the gel law's own few mired of that", () => {
    const warm = compile(twoHeads()).lamps[1]!;
    const report = whiteBalanceReport(twoHeads(), compile(twoHeads()), {});
    const [lamp] = report.lamps;
    expect(lamp!.id).toBe('warm');
    // derived, ±10 mired as gels are trusted: the bounded mired law lands within 1.5 of its number on its design lamp.
    expect(Math.abs(lamp!.mired! - 287.6)).toBeLessThan(3);
    // derived: log₂ 0.71 = −0.494.
    expect(Math.abs(warm.filterLoss_stops - 0.494)).toBeLessThan(EXPOSURE_STOPS);
  });

  it('costs 0.49 stop: 250 lx become 178', () => {
    const clean = straight(withLamp(withLamp(twoHeads(), 0, { on: true }), 1, { on: false }));
    const warm = straight(twoHeads());
    // derived: 2250/9 = 250; 250·0.71 = 177.5.
    expect(Math.abs(clean.illuminance_lx - 250)).toBeLessThan(0.1);
    expect(Math.abs(warm.illuminance_lx - 177.5)).toBeLessThan(0.1);
    expect(Math.abs(warm.stops - clean.stops + 0.49)).toBeLessThan(EXPOSURE_STOPS);
  });

  it('half blue, whose swatch is for tungsten light, costs about 0.86 stop', () => {
    const blue = compile(withLamp(twoHeads(), 1, { filters: ['half-blue'] })).lamps[1]!;
    // derived: log₂ 0.55 = −0.862, on 3200 K; ±¼ stop, as gels are trusted, on this bluer lamp.
    expect(Math.abs(blue.filterLoss_stops - 0.862)).toBeLessThan(0.25);
  });

  it('is recovered by moving in from 3.00 to 2.53 m, which the balance finds by the true light', () => {
    const scene = twoHeads();
    const report = balanceScene(scene, { wants: [{ mark: 'face', lamp: 'warm', stops: 0 }], compile });
    expect(report.reached).toBe(false);
    const [want] = report.wants;
    expect(want).toMatchObject({ why: 'full', reached: false });
    expect(Math.abs(want!.now_stops + 0.494)).toBeLessThan(EXPOSURE_STOPS);
    const nearer = want!.remedies.find((remedy) => remedy.change === 'nearer')!;
    // derived: 3·√0.71 = 2.528 m.
    expect('distance_m' in nearer && Math.abs(nearer.distance_m - 2.528)).toBeLessThan(0.005);
    expect(Math.abs(nearer.outcome_stops)).toBeLessThan(EXPOSURE_STOPS);
    const without = want!.remedies.find((remedy) => remedy.change === 'without-filter')!;
    expect(without).toMatchObject({ filter: 'half-orange', reached: true });
    expect('cct_K' in without && Math.abs(without.cct_K! - 5600)).toBeLessThan(1);
  });
});

describe('S9: white balance between clean and half orange', () => {
  it('is 4290 K by mired: clean −54.5, half orange +54.5', () => {
    const { whiteBalance_K, split_mired } = evenSplit(miredFromKelvin(5600), miredFromKelvin(5600) + 109);
    // derived: 178.57 + 54.5 = 233.07 → 4290.6 K.
    expect(Math.abs(whiteBalance_K - 4290)).toBeLessThan(1);
    expect(split_mired).toBeCloseTo(54.5, 9);
  });

  it('is that for the two heads, with their spectra', () => {
    const scene = withLamp(twoHeads(), 0, { on: true });
    const { split, lamps } = whiteBalanceReport(scene, compile(scene), {});
    expect(split).toMatchObject({ cool: ['clean'], warm: ['warm'] });
    // derived, ±10 mired: 10⁶/4290² · 3 mired = 55 K.
    expect(Math.abs(split!.whiteBalance_K - 4290)).toBeLessThan(55);
    expect(Math.abs(split!.split_mired - 54.5)).toBeLessThan(1.5);
    const [clean, warm] = lamps;
    expect(clean!.splitOffset_mired! + warm!.splitOffset_mired!).toBeCloseTo(0, 9);
  });
});
