import { describe, expect, it } from 'vitest';
import { extinction_per_m } from '../../src/core/haze/extinction.ts';
import { applyCommand } from '../../src/scene/commands/apply-command.ts';
import { compileScene } from '../../src/scene/compile/compile-scene.ts';
import { meterScene } from '../../src/scene/meter/meter-scene.ts';
import { correctedModel } from '../../src/scene/readings/corrected-model.ts';
import { type Corrections, correctionsFrom } from '../../src/scene/readings/corrections.ts';
import type { SceneDocument } from '../../src/scene/schema/document.ts';
import type { Reading } from '../../src/scene/schema/mark.ts';
import { backlightScene, NO_FILES } from './support/backlight.ts';

/** Metered at 10 m, entered; then the lamp is planned at 25 m. Haze only takes light, as the hand calculation has it. */
const AT_TEN: Reading = {
  id: 'ten',
  mark: 'figure',
  lamps: ['back'],
  receptor: 'flat',
  illuminance_lx: 1600,
};
const I_cd = 140_000;
/** The face, 0.15 m in radius, takes (0.15/10)² = 2e-4 at 10 m. */
const FACE = 3e-4;

function metered(haze?: SceneDocument['haze']): SceneDocument {
  return backlightScene({
    lamps: [{ id: 'back', name: 'Backlight', head: 'big', position_m: [10, 3, 0], aim_m: [0, 3, 0] }],
    readings: [AT_TEN],
    ...(haze ? { haze } : {}),
  });
}

function changed(document: SceneDocument, patch: object): SceneDocument {
  const applied = applyCommand(document, { do: 'change', id: 'back', patch });
  if (applied.problems) throw new Error(applied.problems[0]!.found);
  return applied.document;
}

function predicted(document: SceneDocument): { lx: number; corrections: Corrections } {
  const corrections = correctionsFrom(document, NO_FILES)!;
  const model = correctedModel(compileScene(document, NO_FILES), document, corrections);
  const [mark] = meterScene(document, model, { light: 'all', corrections }).marks;
  return { lx: mark!.illuminance_lx, corrections };
}

describe('S15: metered at 10 m, then moved to 25 m', () => {
  // derived: 1400 lx planned, log₂(1600/1400) = 0.1926; with plan ±⅔ and reading ±0.1 the lamp takes 1/(1 + 0.1²·2.25)
  // = 0.9780 of it: 0.1884, I = 140 000·2^0.1884 = 159 530 cd.
  const OUTPUT_stops = 0.1884;

  it('in clear air the mark reads what inverse square makes of the corrected lamp', () => {
    const before = predicted(metered());
    expect(Math.abs(before.corrections.lamps[0]!.output_stops - OUTPUT_stops)).toBeLessThan(5e-4);

    const after = predicted(changed(metered(), { position_m: [25, 3, 0] }));
    expect(after.corrections.lamps[0]!.output_stops).toBe(before.corrections.lamps[0]!.output_stops);
    // derived: 159 530/25² = 255.2 lx, not the 1600 of the reading and not the 224 of the plan.
    expect(Math.abs(after.lx / 255.2 - 1)).toBeLessThan(1e-3);
    expect(after.corrections.readings[0]!.planned_lx).toBeCloseTo(
      before.corrections.readings[0]!.planned_lx,
      9,
    );
    expect(after.corrections.readings[0]!.outlier).toBe(false);
  });

  it('in haze too, by the haze that the reading leaves likely', () => {
    const haze = { visibility_m: 200, albedo: 0 };
    const before = predicted(metered(haze));
    const after = predicted(changed(metered(haze), { position_m: [25, 3, 0] }));
    const { lamps, haze: found } = after.corrections;
    expect(lamps[0]!.output_stops).toBe(before.corrections.lamps[0]!.output_stops);
    expect(found!.visibility_m).toBe(before.corrections.haze!.visibility_m);
    // derived: I·2^x·e^(−25·σ)/25².
    const sigma = extinction_per_m(found!.visibility_m);
    const expected = (I_cd * 2 ** lamps[0]!.output_stops * Math.exp(-25 * sigma)) / 25 ** 2;
    expect(Math.abs(after.lx / expected - 1)).toBeLessThan(FACE);
  });

  it('written into the file by hand without what the reading remembers, the old error', () => {
    const moved = metered();
    moved.lamps![0]!.position_m = [25, 3, 0];
    // derived: against 224 lx the reading says log₂(1600/224) = 2.837 stops too much.
    expect(correctionsFrom(moved, NO_FILES)!.readings[0]!.plannedResidual_stops).toBeCloseTo(2.837, 3);
  });

  it('dimmed to a quarter, re-aimed and back behind a half-stop net, the lamp keeps its correction', () => {
    const dimmed = changed(metered(), { level: 0.25 });
    // derived: 159 530·0.25/10² = 398.8 lx.
    expect(Math.abs(predicted(dimmed).lx / 398.8 - 1)).toBeLessThan(1e-3);
    const netted = changed(dimmed, { filters: ['scrim-single'], aim_m: [10, 3, 10] });
    const { corrections } = predicted(netted);
    expect(Math.abs(corrections.lamps[0]!.output_stops - OUTPUT_stops)).toBeLessThan(5e-4);
    expect(netted.readings![0]!.taken).toEqual([{ lamp: 'back', level: 1, aim_m: [0, 3, 0], filters: [] }]);
  });

  it('a cell that faced the lamp is taken to have faced it where it was', () => {
    const aside = changed(metered(), { position_m: [0, 3, 10], aim_m: [0, 3, 0] });
    expect(predicted(aside).corrections.readings[0]!.planned_lx).toBeCloseTo(
      predicted(metered()).corrections.readings[0]!.planned_lx,
      9,
    );
  });

  it('a reading at each place tells lamp and haze apart, as two marks would', () => {
    const haze = { visibility_m: 200, albedo: 0 };
    const near = { ...AT_TEN, illuminance_lx: 1220 };
    const first = { ...metered(haze), readings: [near] };
    const moved = changed(first, { position_m: [25, 3, 0] });
    const far: Reading = { ...AT_TEN, id: 'far', illuminance_lx: 150 };
    const added = applyCommand(moved, { do: 'add', to: 'readings', thing: far }).document!;
    const { corrections } = predicted(added);
    // derived: E·d² 122 000 and 93 750; σ = ln(1.3013)/15 → V = 222.8 m; I = 145 410 cd, +0.055 stop.
    expect(Math.abs(corrections.haze!.alone_m! - 222.8)).toBeLessThan(1);
    expect(Math.abs(corrections.lamps[0]!.alone_stops! - 0.055)).toBeLessThan(0.01);
  });
});
