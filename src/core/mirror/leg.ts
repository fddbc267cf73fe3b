import { transmittance } from '../geometry/ray-query.ts';
import { hazeTransmittance } from '../haze/transmittance.ts';
import type { LightModel } from '../light-model/light-model.ts';
import { length, subtract, type Vec3 } from '../math/vec3.ts';
import { clearance_m } from '../transport/source-sample.ts';

/** What panes and haze leave of a way that starts on a surface; 0 where something stands in it. */
export function passed(
  model: LightModel,
  from: Vec3,
  wx: number,
  wy: number,
  wz: number,
  d_m: number,
): number {
  const [x, y, z] = from;
  const clear = clearance_m(d_m);
  const straight = transmittance(model.geometry, x, y, z, wx, wy, wz, clear, d_m - clear, model.paneDirect);
  return straight === 0 ? 0 : straight * hazeTransmittance(model.haze, x, y, z, wx, wy, wz, d_m);
}

/** What haze alone leaves of the same way. */
export function hazePassed({ haze }: LightModel, from: Vec3, to: Vec3): number {
  const d = subtract(to, from);
  const l = length(d);
  return hazeTransmittance(haze, ...from, d[0] / l, d[1] / l, d[2] / l, l);
}
