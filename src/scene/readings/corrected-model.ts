import type { LightModel } from '../../core/light-model/light-model.ts';
import type { SceneDocument } from '../schema/document.ts';
import type { Corrections } from './corrections.ts';

/**
 * Which corrections hold in a variant of the scene: a lamp's while it is the same head, the haze's while the variant has the
 * haze that was planned when the readings were taken.
 */
export function holdIn(corrections: Corrections, shown: SceneDocument): readonly boolean[] {
  const lamps = corrections.lamps.map(({ id, head }) =>
    (shown.lamps ?? []).some((lamp) => lamp.id === id && lamp.head === head),
  );
  return [...lamps, corrections.haze !== null && shown.haze?.visibility_m === corrections.haze.planned_m];
}

/** The light model of `shown` with lamps and haze as the readings say. */
export function correctedModel(
  model: LightModel,
  shown: SceneDocument,
  corrections: Corrections | null,
): LightModel {
  if (!corrections) return model;
  const holds = holdIn(corrections, shown);
  const outputs = new Map(
    corrections.lamps.flatMap(({ id, output_stops }, i) => (holds[i] ? [[id, output_stops]] : [])),
  );
  const { haze } = corrections;
  return {
    ...model,
    lamps: model.lamps.map((lamp) => ({ ...lamp, gain: lamp.gain * 2 ** (outputs.get(lamp.id) ?? 0) })),
    haze:
      model.haze && haze && holds.at(-1)
        ? { ...model.haze, extinction_per_m: model.haze.extinction_per_m * 2 ** haze.extinction_stops }
        : model.haze,
  };
}
