import { describe, expect, it } from 'vitest';
import { extinction_per_m } from '../../src/core/haze/extinction.ts';
import { compileScene } from '../../src/scene/compile/compile-scene.ts';
import { meterScene } from '../../src/scene/meter/meter-scene.ts';
import { correctedModel } from '../../src/scene/readings/corrected-model.ts';
import { type Corrections, correctionsFrom } from '../../src/scene/readings/corrections.ts';
import type { Reading } from '../../src/scene/schema/mark.ts';
import { backlightScene, NO_FILES } from './support/backlight.ts';

/**
 * A dome held to the lamp on its axis at 10 and at 25 m. The haze only takes light (albedo 0): a hand calculation with
 * Bouguer's law knows nothing of the glow that a dome in real haze reads besides.
 */
const NEAR: Reading = { id: 'near', mark: 'ten', lamps: ['back'], receptor: 'dome', illuminance_lx: 1220 };
const FAR: Reading = { id: 'far', mark: 'figure', lamps: ['back'], receptor: 'dome', illuminance_lx: 150 };

function night(...readings: Reading[]) {
  return backlightScene({
    haze: { visibility_m: 200, albedo: 0 },
    marks: [
      { id: 'figure', position_m: [0, 3, 0], facing: 'lamp:back', receptor: 'dome' },
      { id: 'ten', position_m: [15, 3, 0], facing: 'lamp:back', receptor: 'dome' },
      { id: 'five', position_m: [20, 3, 0], facing: 'lamp:back', receptor: 'dome' },
    ],
    readings,
  });
}

describe('S15: 1220 lx at 10 m and 150 lx at 25 m', () => {
  const both = correctionsFrom(night(NEAR, FAR), NO_FILES)!;

  it('by themselves say 223 m of visibility and 145 400 cd: the least-squares limit without the plan', () => {
    // derived: E·d² 122 000 and 93 750; σ = ln(1.3013)/15 = 0.017558 → V = ln 50/σ = 222.8 m;
    // I = 122 000·e^0.17558 = 145 410 cd, log₂(145 410/140 000) = +0.0547. The face takes (0.15/10)² = 2e-4 at 10 m.
    expect(Math.abs(both.haze!.alone_m! - 222.8)).toBeLessThan(1);
    const I = 140_000 * 2 ** both.lamps[0]!.alone_stops!;
    expect(Math.abs(I / 145_410 - 1)).toBeLessThan(0.002);
    expect(Math.abs(both.lamps[0]!.alone_stops! - 0.05)).toBeLessThan(0.01);
  });

  it('with the plan, which is good to ±⅔ stop and a factor of two of haze, pull it that way', () => {
    // derived: two readings good to ±0.1 hold the haze to ±0.55 stop only, so the plan's ±1 still counts for a quarter: the
    // visibility lies between planned and metered. The lamp makes up for the haze that is left.
    expect(both.haze!.visibility_m).toBeGreaterThan(205);
    expect(both.haze!.visibility_m).toBeLessThan(223);
    expect(Math.abs(both.lamps[0]!.output_stops - 0.055)).toBeLessThan(0.03);
    for (const reading of both.readings) expect(Math.abs(reading.residual_stops)).toBeLessThan(0.1);
    expect(both.together).toEqual([]);
  });

  it('one reading alone cannot tell lamp from haze, and says so; the other tells them apart', () => {
    for (const reading of [NEAR, FAR]) {
      const one = correctionsFrom(night(reading), NO_FILES)!;
      expect(one.together).toEqual([['back', 'haze']]);
      expect(one.lamps[0]!.alone_stops).toBeNull();
      expect(one.haze!.alone_m).toBeNull();
      // Both move toward the reading, but their sum is all that is known.
      expect(Math.abs(one.readings[0]!.residual_stops)).toBeLessThan(0.02);
    }
  });

  it('as many readings as one likes at one distance tell them no better apart', () => {
    const many = Array.from({ length: 6 }, (_, i) => ({ ...FAR, id: `far-${i}`, illuminance_lx: 148 + i }));
    const corrections = correctionsFrom(night(...many), NO_FILES)!;
    expect(corrections.together).toEqual([['back', 'haze']]);
    expect(corrections.haze!.plusMinus_stops).toBeGreaterThan(0.7);
  });

  it('shrink the ± of lamp, haze and predictions, and of marks that were not metered', () => {
    const one = correctionsFrom(night(FAR), NO_FILES)!;
    expect(one.lamps[0]!.plusMinus_stops).toBeLessThan(one.lamps[0]!.planned_stops);
    expect(both.lamps[0]!.plusMinus_stops).toBeLessThan(one.lamps[0]!.plusMinus_stops);
    expect(both.haze!.plusMinus_stops).toBeLessThan(one.haze!.plusMinus_stops);
    const planned = inputs(null);
    const [after1, after2] = [inputs(one), inputs(both)];
    for (const [m, before] of planned.entries()) {
      expect(after1[m]).toBeLessThan(before);
      expect(after2[m]).toBeLessThan(after1[m]! + 1e-9);
    }
    // derived: where it was metered, a prediction is about as good as the meter, ±0.1.
    expect(after2[0]).toBeLessThan(0.12);
  });

  it('are then what the meter is predicted to read', () => {
    const scene = night(NEAR, FAR);
    const model = correctedModel(compileScene(scene, NO_FILES), scene, both);
    const report = meterScene(scene, model, { light: 'all', corrections: both });
    expect(report.corrected).toEqual({ readings: 2 });
    const [far, near] = report.marks;
    expect(Math.abs(Math.log2(far!.illuminance_lx / 150))).toBeLessThan(0.1);
    expect(Math.abs(Math.log2(near!.illuminance_lx / 1220))).toBeLessThan(0.1);
  });

  it('leave the document as it is', () => {
    const scene = night(NEAR, FAR);
    const before = JSON.stringify(scene);
    correctedModel(compileScene(scene, NO_FILES), scene, correctionsFrom(scene, NO_FILES));
    expect(JSON.stringify(scene)).toBe(before);
  });

  it('in a document without readings are none, and change nothing', () => {
    const scene = night();
    expect(correctionsFrom(scene, NO_FILES)).toBeNull();
    const model = compileScene(scene, NO_FILES);
    expect(correctedModel(model, scene, null)).toBe(model);
  });

  it('are used with the haze law that the hand calculation uses', () => {
    expect(Math.log(122_000 / 93_750) / 15).toBeCloseTo(extinction_per_m(222.8), 5);
  });
});

function inputs(corrections: Corrections | null): number[] {
  const scene = night();
  const model = correctedModel(compileScene(scene, NO_FILES), scene, corrections);
  return meterScene(scene, model, { light: 'direct', corrections }).marks.map(
    (mark) => mark.uncertainty.input_stops,
  );
}
