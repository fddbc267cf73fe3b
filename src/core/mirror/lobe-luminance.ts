import { type FacePoint, faceArea_m2, placeOnFace } from '../lamps/face.ts';
import { onFace } from '../lamps/face-hit.ts';
import type { Lamp, LightModel } from '../light-model/light-model.ts';
import { kroneckerU, kroneckerV } from '../math/kronecker.ts';
import { dot, type Vec3 } from '../math/vec3.ts';
import { normalDensity, visibility } from '../surfaces/ggx.ts';
import type { SurfaceOptics } from '../surfaces/surface-optics.ts';
import { emitterOf } from '../transport/lamp-sight.ts';
import { newSurfacePoint, setNormal } from '../transport/surface-point.ts';
import { faceLuminance_cd_m2 } from './face-luminance.ts';
import { passed } from './leg.ts';
import { luminousParts, mirrorReflectance } from './mirror-reflectance.ts';

const onLamp: FacePoint = { r_m: 0, t_m: 0 };
const axes = newSurfacePoint();

/**
 * Luminance, cd/m², that the glossy lobe of a surface at q sends to the eye from one lamp:
 *
 *   L = T(q → eye)·∫ f_glossy(i, o)·cos θ_i·L_face(i)·T(q → lamp) dω_i
 *
 * by an even set of points on the face and one of microfacet slopes, together, weighed by the balance heuristic (Veach
 * 1997): exact both for a mirror, where it is F·L_face, and for a lobe that is wide against the lamp. Without rays
 * (`seen` = null) nothing stands in the way, panes and haze included.
 */
export function lobeLuminance_cd_m2(
  lamp: Lamp,
  optics: SurfaceOptics,
  q: Vec3,
  normal: Vec3,
  eye: Vec3,
  samples: number,
  seen: LightModel | null,
): number {
  const [ex, ey, ez] = [eye[0] - q[0], eye[1] - q[1], eye[2] - q[2]];
  const toEye = Math.sqrt(ex * ex + ey * ey + ez * ez);
  setNormal(axes, normal[0], normal[1], normal[2]);
  const { ux, uy, uz, vx, vy, vz } = axes;
  const [nx, ny, nz] = normal;
  const ox = (ex * ux + ey * uy + ez * uz) / toEye;
  const oy = (ex * vx + ey * vy + ez * vz) / toEye;
  const oz = (ex * nx + ey * ny + ez * nz) / toEye;
  if (oz <= 1e-6) return 0;
  const legToEye = seen ? passed(seen, q, ex / toEye, ey / toEye, ez / toEye, toEye) : 1;
  if (legToEye === 0) return 0;

  const { origin_m, r, t, a } = lamp.frame;
  const area = faceArea_m2(lamp.face);
  const { alpha } = optics;
  const toPlane = dot([origin_m[0] - q[0], origin_m[1] - q[1], origin_m[2] - q[2]], a);
  const inLamp = luminousParts(lamp);
  const emitter = emitterOf(lamp);
  let sum = 0;
  for (let k = 0; k < 2 * samples; k++) {
    const i = k >> 1;
    const u = kroneckerU(i, HALF);
    const v = kroneckerV(i, HALF);
    // Direction to the lamp, in the world, and where it meets the face.
    let wx: number;
    let wy: number;
    let wz: number;
    let d: number;
    if (k % 2 === 0) {
      placeOnFace(lamp.face, u, v, onLamp);
      wx = origin_m[0] + onLamp.r_m * r[0] + onLamp.t_m * t[0] - q[0];
      wy = origin_m[1] + onLamp.r_m * r[1] + onLamp.t_m * t[1] - q[1];
      wz = origin_m[2] + onLamp.r_m * r[2] + onLamp.t_m * t[2] - q[2];
      d = Math.sqrt(wx * wx + wy * wy + wz * wz);
      wx /= d;
      wy /= d;
      wz /= d;
    } else {
      const slope = alpha * Math.sqrt(u / (1 - u));
      const sx = slope * Math.cos(2 * Math.PI * v);
      const sy = slope * Math.sin(2 * Math.PI * v);
      const l = 1 / Math.sqrt(1 + slope * slope);
      const oh = (sx * ox + sy * oy + oz) * l;
      const [lx, ly, lz] = [2 * oh * sx * l - ox, 2 * oh * sy * l - oy, 2 * oh * l - oz];
      if (lz <= 0) continue;
      wx = lx * ux + ly * vx + lz * nx;
      wy = lx * uy + ly * vy + lz * ny;
      wz = lx * uz + ly * vz + lz * nz;
      d = toPlane / (wx * a[0] + wy * a[1] + wz * a[2]);
      if (!(d > 0)) continue;
      const [hx, hy, hz] = [
        q[0] + d * wx - origin_m[0],
        q[1] + d * wy - origin_m[1],
        q[2] + d * wz - origin_m[2],
      ];
      const across = hx * r[0] + hy * r[1] + hz * r[2];
      if (!onFace(lamp.face, across, hx * t[0] + hy * t[1] + hz * t[2])) continue;
    }
    const cosIn = wx * nx + wy * ny + wz * nz;
    if (cosIn <= 0) continue;
    const cosGamma = -(wx * a[0] + wy * a[1] + wz * a[2]);
    const L = faceLuminance_cd_m2(emitter, -wx, -wy, -wz);
    if (L === 0) continue;
    let hx = wx * ux + wy * uy + wz * uz + ox;
    let hy = wx * vx + wy * vy + wz * vz + oy;
    let hz = cosIn + oz;
    const l = Math.sqrt(hx * hx + hy * hy + hz * hz);
    hx /= l;
    hy /= l;
    hz /= l;
    const cosHalf = Math.min(1, l / 2);
    const D = normalDensity(alpha, hx, hy, hz);
    const density = (d * d) / (area * cosGamma) + (D * hz) / (4 * cosHalf);
    const leg = seen ? passed(seen, q, wx, wy, wz, d) : 1;
    if (leg === 0) continue;
    const F = mirrorReflectance(optics, inLamp, cosHalf);
    sum += (F * D * visibility(alpha, cosIn, oz) * cosIn * L * leg) / density;
  }
  return (legToEye * sum) / samples;
}

/** Not 0, the corner of the unit square, which is the mirror direction itself. */
const HALF = 0x80000000;
