import { transmittance } from '../geometry/ray-query.ts';
import type { Lamp, LightModel } from '../light-model/light-model.ts';
import { emitterOf, newLampSight, seeLamp } from './lamp-sight.ts';
import { domeResponse, flatResponse } from './receptor.ts';
import { clearance_m, type MeterPoint, type SourceSampler } from './source-sample.ts';

/**
 * Straight light of one lamp at a meter. Every point of the emitting face sends out the lamp's whole distribution, so
 * with s uniform on the face
 *
 *   E = mean over s of  I(ω_s)/d_s² · w(θ_s) · V_s · e^(−σ_t·d_s) · gain
 *
 * where d_s is the distance from the meter, ω_s the direction in the lamp's frame, w the receptor's response and V_s
 * what the geometry lets through (0 behind anything opaque, else the product of the panes' straight shares). Far from
 * the lamp this is the inverse-square law; near a soft source it falls short of it, as on set.
 */
export function lampSampler(model: LightModel, lamp: Lamp, meter: MeterPoint): SourceSampler {
  const emitter = emitterOf(lamp);
  const [px, py, pz] = meter.position_m;
  const [nx, ny, nz] = meter.facing;
  const sight = newLampSight();

  return (u, v, sample) => {
    seeLamp(emitter, model.haze, px, py, pz, u, v, sight);
    const { wx, wy, wz, d_m, normal_lx } = sight;
    const clear = clearance_m(d_m);
    const through = transmittance(
      model.geometry,
      px,
      py,
      pz,
      wx,
      wy,
      wz,
      clear,
      d_m - clear,
      model.paneDirect,
    );
    const cosTheta = wx * nx + wy * ny + wz * nz;
    sample.unblockedFlat_lx = normal_lx * flatResponse(cosTheta);
    sample.unblockedDome_lx = normal_lx * domeResponse(cosTheta);
    sample.flat_lx = sample.unblockedFlat_lx * through;
    sample.dome_lx = sample.unblockedDome_lx * through;
    sample.open = through > 0 ? 1 : 0;
  };
}
