import { hazedLength_m } from '../haze/transmittance.ts';
import type { Lamp, LightModel } from '../light-model/light-model.ts';
import { degreesFromRadians } from '../math/angle.ts';
import { angleBetween, length, normalize, scale, subtract, type Vec3 } from '../math/vec3.ts';
import type { MeterPoint } from './source-sample.ts';

/** How a lamp stands to a meter. */
export interface Aspect {
  readonly distance_m: number;
  /** How much of that lies in haze. */
  readonly hazed_m: number;
  /** Between where the receptor points and the lamp. */
  readonly incidence_deg: number;
  /** Between the lamp's axis and the meter. */
  readonly offAxis_deg: number;
}

export function aspectOf({ haze }: LightModel, lamp: Lamp, meter: MeterPoint): Aspect {
  const toLamp: Vec3 = subtract(lamp.frame.origin_m, meter.position_m);
  const distance_m = length(toLamp);
  return {
    distance_m,
    hazed_m: haze ? hazedLength_m(haze, ...meter.position_m, ...normalize(toLamp), distance_m) : 0,
    incidence_deg: degreesFromRadians(angleBetween(meter.facing, toLamp)),
    offAxis_deg: degreesFromRadians(angleBetween(lamp.frame.a, scale(toLamp, -1))),
  };
}
