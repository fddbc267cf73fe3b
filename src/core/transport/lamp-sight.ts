import { type FacePoint, placeOnFace } from '../lamps/face.ts';
import type { Lamp } from '../light-model/light-model.ts';
import { intensityToward } from '../photometry/intensity.ts';

/** A point of a lamp's face as seen from somewhere, and what it shines there with nothing in the way. */
export interface LampSight {
  /** Unit direction toward the point of the face, and how far it is. */
  wx: number;
  wy: number;
  wz: number;
  d_m: number;
  /** Illuminance square to that direction, standing for the whole face; haze on the way taken off. */
  normal_lx: number;
}

export function newLampSight(): LampSight {
  return { wx: 0, wy: 0, wz: 0, d_m: 0, normal_lx: 0 };
}

const onFace: FacePoint = { r_m: 0, t_m: 0 };

/** Looks from a place at the point (u, v) of a lamp's face. */
export function seeLamp(
  lamp: Lamp,
  extinction: number,
  px: number,
  py: number,
  pz: number,
  u: number,
  v: number,
  sight: LampSight,
): void {
  const { origin_m, r, t, a } = lamp.frame;
  placeOnFace(lamp.face, u, v, onFace);
  const dx = origin_m[0] + r[0] * onFace.r_m + t[0] * onFace.t_m - px;
  const dy = origin_m[1] + r[1] * onFace.r_m + t[1] * onFace.t_m - py;
  const dz = origin_m[2] + r[2] * onFace.r_m + t[2] * onFace.t_m - pz;
  const d = Math.max(1e-9, Math.sqrt(dx * dx + dy * dy + dz * dz));
  const wx = dx / d;
  const wy = dy / d;
  const wz = dz / d;
  const I = intensityToward(
    lamp.distribution,
    -(wx * r[0] + wy * r[1] + wz * r[2]),
    -(wx * t[0] + wy * t[1] + wz * t[2]),
    -(wx * a[0] + wy * a[1] + wz * a[2]),
  );
  sight.wx = wx;
  sight.wy = wy;
  sight.wz = wz;
  sight.d_m = d;
  sight.normal_lx = ((lamp.gain * I) / (d * d)) * Math.exp(-extinction * d);
}
