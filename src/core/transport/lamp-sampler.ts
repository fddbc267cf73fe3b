import { transmittance } from '../geometry/ray-query.ts';
import { type FacePoint, placeOnFace } from '../lamps/face.ts';
import type { Lamp, LightModel } from '../light-model/light-model.ts';
import { intensityToward } from '../photometry/intensity.ts';
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
  const { frame, face, distribution, gain } = lamp;
  const sigma = model.haze?.extinction_per_m ?? 0;
  const [px, py, pz] = meter.position_m;
  const [nx, ny, nz] = meter.facing;
  const onFace: FacePoint = { r_m: 0, t_m: 0 };

  return (u, v, sample) => {
    placeOnFace(face, u, v, onFace);
    const { r_m, t_m } = onFace;
    // From the meter to the point of the face.
    const dx = frame.origin_m[0] + frame.r[0] * r_m + frame.t[0] * t_m - px;
    const dy = frame.origin_m[1] + frame.r[1] * r_m + frame.t[1] * t_m - py;
    const dz = frame.origin_m[2] + frame.r[2] * r_m + frame.t[2] * t_m - pz;
    const d = Math.sqrt(dx * dx + dy * dy + dz * dz);
    sample.flat_lx = 0;
    sample.dome_lx = 0;
    sample.unblockedFlat_lx = 0;
    sample.unblockedDome_lx = 0;
    sample.open = 0;
    if (d === 0) return;

    const clear = clearance_m(d) / d;
    const through = transmittance(model.geometry, px, py, pz, dx, dy, dz, clear, 1 - clear, model.paneDirect);
    sample.open = through > 0 ? 1 : 0;
    if (gain === 0) return;

    const k = -1 / d;
    const I = intensityToward(
      distribution,
      k * (dx * frame.r[0] + dy * frame.r[1] + dz * frame.r[2]),
      k * (dx * frame.t[0] + dy * frame.t[1] + dz * frame.t[2]),
      k * (dx * frame.a[0] + dy * frame.a[1] + dz * frame.a[2]),
    );
    const normal_lx = ((gain * I) / (d * d)) * Math.exp(-sigma * d);
    const cosTheta = (dx * nx + dy * ny + dz * nz) / d;
    sample.unblockedFlat_lx = normal_lx * flatResponse(cosTheta);
    sample.unblockedDome_lx = normal_lx * domeResponse(cosTheta);
    sample.flat_lx = sample.unblockedFlat_lx * through;
    sample.dome_lx = sample.unblockedDome_lx * through;
  };
}
