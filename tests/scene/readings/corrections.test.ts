import { describe, expect, it } from 'vitest';
import { compileScene } from '../../../src/scene/compile/compile-scene.ts';
import { meterScene } from '../../../src/scene/meter/meter-scene.ts';
import { correctedModel, holdIn } from '../../../src/scene/readings/corrected-model.ts';
import { correctionsFrom } from '../../../src/scene/readings/corrections.ts';
import { predictReadings, scenesOfReadings } from '../../../src/scene/readings/predict-readings.ts';
import { readingsReport } from '../../../src/scene/readings/readings-report.ts';
import type { SceneDocument } from '../../../src/scene/schema/document.ts';
import type { Reading } from '../../../src/scene/schema/mark.ts';
import { edited, frozen, opened } from '../../support/scenes.ts';

const NO_FILES = { photometry: new Map(), meshes: new Map() };

/** Two heads of one kind and one of another over a grey floor, in haze; marks near and far. */
function stage(changes: Record<string, unknown> = {}): SceneDocument {
  const head = (peak_cd: number) => ({
    photometry: { kind: 'beam', peak_cd, beam_deg: 60, field_deg: 90 },
    face: { shape: 'disc', diameter_m: 0.1 },
    spectrum: { kind: 'planck', cct_K: 3200 },
  });
  return opened(
    edited(
      {
        keyfall: 1,
        title: 'Stage',
        solids: [
          { id: 'floor', shape: 'box', size_m: [40, 1, 20], position_m: [0, -0.5, 0], material: 'grey-card' },
        ],
        heads: { small: head(9000), large: head(60_000) },
        lamps: [
          { id: 'one', head: 'small', position_m: [-4, 2, 0], aim_m: [0, 1.5, 0] },
          { id: 'two', head: 'small', position_m: [0, 2, 5], aim_m: [0, 1.5, 0] },
          { id: 'far', head: 'large', position_m: [18, 3, 0], aim_m: [0, 1.5, 0] },
        ],
        marks: [
          { id: 'face', position_m: [0, 1.6, 0], facing: 'camera' },
          { id: 'rim', position_m: [0, 1.6, 0], facing: 'lamp:far', receptor: 'flat' },
          { id: 'near-far', position_m: [12, 2.4, 0], facing: 'lamp:far', receptor: 'flat' },
          { id: 'back-of-one', position_m: [-6, 2, 0], facing: [-1, 0, 0], receptor: 'flat' },
        ],
        cameras: [
          {
            id: 'a',
            position_m: [-5, 1.6, 4],
            look_m: [0, 1.6, 0],
            sensor_mm: [36, 24],
            focal_mm: 35,
            fNumber: 4,
            shutter_s: 0.02,
            iso: 800,
          },
        ],
        haze: { visibility_m: 150, albedo: 0.9 },
      },
      changes,
    ),
  );
}

const reading = (id: string, mark: string, lamps: string[], illuminance_lx: number): Reading => ({
  id,
  mark,
  lamps,
  illuminance_lx,
});

/** What a meter would read on a night when lamps and haze are off the plan by so many stops. */
function night(
  taken: readonly (readonly [string, string[]])[],
  off: { lamps: number[]; haze: number },
): Reading[] {
  const compile = (scene: SceneDocument) => {
    const planned = compileScene(scene, NO_FILES);
    return {
      ...planned,
      lamps: planned.lamps.map((lamp, i) => ({ ...lamp, gain: lamp.gain * 2 ** off.lamps[i]! })),
      haze: { ...planned.haze!, extinction_per_m: planned.haze!.extinction_per_m * 2 ** off.haze },
    };
  };
  const asked = taken.map(([mark, lamps], i) => reading(`r${i}`, mark, lamps, 1));
  return predictReadings(asked, scenesOfReadings(stage(), asked, compile)).map(({ sky_lx, lamps }, i) => ({
    ...asked[i]!,
    illuminance_lx: lamps.reduce((sum, lamp) => sum + lamp.attenuated_lx + lamp.glow_lx, sky_lx),
  }));
}

const TAKEN = [
  ['face', ['one']],
  ['face', ['two']],
  ['rim', ['far']],
  ['near-far', ['far']],
  ['face', ['one', 'two', 'far']],
] as const as unknown as [string, string[]][];

describe('corrections from readings with all light, haze and bounce', () => {
  const readings = night(TAKEN, { lamps: [0.4, -0.3, 0.25], haze: 0.7 });
  const found = correctionsFrom(stage({ readings }), NO_FILES)!;

  it('explain the readings, and find lamps and haze within their own ±', () => {
    for (const { residual_stops } of found.readings) expect(Math.abs(residual_stops)).toBeLessThan(0.06);
    for (const [i, truth] of [0.4, -0.3, 0.25].entries()) {
      const { output_stops, plusMinus_stops } = found.lamps[i]!;
      expect(Math.abs(output_stops - truth)).toBeLessThan(1.96 * plusMinus_stops);
      expect(plusMinus_stops).toBeLessThan(0.25);
    }
    const { extinction_stops, plusMinus_stops } = found.haze!;
    expect(Math.abs(extinction_stops - 0.7)).toBeLessThan(1.96 * plusMinus_stops);
    expect(found.together).toEqual([]);
  });

  it('bring the sum of squares down from the plan', () => {
    const { fit } = readingsReport(stage({ readings }), NO_FILES);
    expect(fit!.planned_stops).toBeGreaterThan(0.2);
    expect(fit!.corrected_stops).toBeLessThan(0.05);
  });

  it('name the reading that fits nothing', () => {
    const slip = readings.map((r, i) => (i === 4 ? { ...r, illuminance_lx: 4 * r.illuminance_lx } : r));
    const { readings: after } = correctionsFrom(stage({ readings: slip }), NO_FILES)!;
    expect(after.filter((r) => r.outlier).map((r) => r.id)).toContain('r4');
    expect(found.readings.filter((r) => r.outlier)).toEqual([]);
  });

  it('never touch the document', () => {
    const scene = frozen(stage({ readings }));
    expect(() => correctionsFrom(scene, NO_FILES)).not.toThrow();
  });
});

describe('which readings can be used', () => {
  it('not one of 0 lx, nor one whose lamps do not reach the mark by the plan; the others are', () => {
    const scene = stage({
      solids: [],
      haze: undefined,
      readings: [
        reading('zero', 'face', ['one'], 0),
        reading('unlit', 'back-of-one', ['one'], 12),
        reading('good', 'face', ['one'], 300),
      ],
    });
    delete (scene as { haze?: unknown }).haze;
    const { unused, readings } = correctionsFrom(scene, NO_FILES)!;
    expect(unused).toEqual([
      { id: 'zero', why: 'dark' },
      { id: 'unlit', why: 'unlit' },
    ]);
    expect(readings.map((r) => r.id)).toEqual(['good']);
  });

  it('not one that no lamp could explain: a slip is not carried into every answer', () => {
    const planned = correctionsFrom(stage({ readings: [reading('right', 'face', ['one'], 300)] }), NO_FILES)!;
    const plan_lx = planned.readings[0]!.planned_lx;
    const of = (times: number) =>
      correctionsFrom(stage({ readings: [reading('slip', 'face', ['one'], times * plan_lx)] }), NO_FILES)!;
    for (const times of [40, 1 / 40, 1e4]) {
      expect(of(times).unused).toEqual([{ id: 'slip', why: 'far-off' }]);
      expect(of(times).lamps.every(({ output_stops }) => output_stops === 0)).toBe(true);
    }
    expect(of(10).unused).toEqual([]);
  });

  it('none of them leaves everything as planned', () => {
    const scene = stage({ readings: [reading('zero', 'face', ['one'], 0)] });
    const corrections = correctionsFrom(scene, NO_FILES)!;
    for (const lamp of corrections.lamps) expect(lamp.output_stops).toBe(0);
    expect(corrections.haze!.visibility_m).toBe(150);
    expect(corrections.together).toEqual([]);
  });

  it('a lamp that is off in the scene was on for its reading', () => {
    const readings = night([['face', ['one']]], { lamps: [0.5, 0, 0], haze: 0 });
    const scene = stage({ readings, 'lamps.0.on': false });
    const { lamps } = correctionsFrom(scene, NO_FILES)!;
    expect(lamps[0]!.output_stops).toBeGreaterThan(0.4);
    // and stays off
    const model = correctedModel(compileScene(scene, NO_FILES), scene, correctionsFrom(scene, NO_FILES));
    expect(model.lamps[0]!.gain).toBe(0);
  });

  it('a lamp of the same head shares most of a correction, one of another head none', () => {
    const readings = night([['face', ['one']]], { lamps: [0.6, 0, 0], haze: 0 });
    const { lamps } = correctionsFrom(stage({ readings }), NO_FILES)!;
    const [one, two, far] = lamps;
    // derived: of ⅔² stops² variance, ¼² is the lamp's own: (⅔² − ¼²)/⅔² = 0.859 is shared.
    expect(two!.output_stops / one!.output_stops).toBeCloseTo(0.859, 2);
    expect(two!.metered).toBe(false);
    expect(Math.abs(far!.output_stops)).toBeLessThan(1e-9);
  });
});

describe('where corrections hold', () => {
  const readings = night([['rim', ['far']]], { lamps: [0, 0, 0.5], haze: 0 });
  const scene = stage({ readings });
  const corrections = correctionsFrom(scene, NO_FILES)!;

  it('in the scene they were taken in, and where a lamp was moved, dimmed or switched', () => {
    expect(holdIn(corrections, scene)).toEqual([true, true, true, true]);
    const moved = stage({ 'lamps.2.position_m': [16, 3, 0], 'lamps.2.level': 0.5 });
    expect(holdIn(corrections, moved)).toEqual([true, true, true, true]);
  });

  it('not for another head, and not for other haze', () => {
    const other = stage({ 'lamps.2.head': 'small', 'haze.visibility_m': 80 });
    expect(holdIn(corrections, other)).toEqual([true, true, false, false]);
    const plain = compileScene(other, NO_FILES);
    const model = correctedModel(plain, other, corrections);
    expect(model.lamps[2]!.gain).toBe(plain.lamps[2]!.gain);
    expect(model.haze).toBe(plain.haze);
    const marks = (given: typeof corrections | null) =>
      meterScene(other, model, { corrections: given }).marks.map((mark) => mark.uncertainty.input_stops);
    // What does not hold has told nothing of this mark, which only that lamp lights.
    expect(marks(corrections)[2]).toBeCloseTo(marks(null)[2]!, 6);
  });
});
