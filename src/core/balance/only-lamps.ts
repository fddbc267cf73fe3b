import type { LightModel } from '../light-model/light-model.ts';

/** The same scene with these lamps alight and no others, and its sky only where that is wanted. */
export function onlyLamps(model: LightModel, ids: ReadonlySet<string>, withSky = false): LightModel {
  return {
    ...model,
    lamps: model.lamps.map((lamp) => (ids.has(lamp.id) ? lamp : { ...lamp, gain: 0 })),
    sky: withSky ? model.sky : null,
  };
}
