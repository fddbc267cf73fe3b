import type { FlatFace } from '../geometry/flat-face.ts';
import { add, dot, scale, subtract, type Vec3 } from '../math/vec3.ts';
import { newUnfolding, type Unfolding, unfold } from '../transport/unfolding.ts';
import type { Mirror, MirrorPoint } from './reflector.ts';

const unfolded = newUnfolding();

/** A flat face as a mirror: the image lies as far behind the plane as the thing before it, exactly. */
export function flatMirror(face: FlatFace, part: number): Mirror {
  const at = (u: number, v: number, side: number): MirrorPoint => ({
    point_m: [
      face.centre_m[0] + u * face.u[0] + v * face.v[0],
      face.centre_m[1] + u * face.u[1] + v * face.v[1],
      face.centre_m[2] + u * face.u[2] + v * face.v[2],
    ],
    normal: side > 0 ? face.n : scale(face.n, -1),
    part,
    within: Math.abs(u) <= face.halfU_m && Math.abs(v) <= face.halfV_m,
  });
  const sideOf = (normal: Vec3) => (dot(normal, face.n) > 0 ? 1 : -1);
  const follow = (eye: Vec3, point: Vec3): MirrorPoint | null =>
    unfold(face, eye[0], eye[1], eye[2], point[0], point[1], point[2], unfolded)
      ? at(unfolded.qu, unfolded.qv, unfolded.side)
      : null;
  return {
    holds: (other) => other === part,
    approximate: false,
    mirrored: (eye, point) => {
      const found = follow(eye, point);
      return found ? [found] : [];
    },
    follow,
    nearestWithin: (eye, point, from) => {
      if (from.within || !unfold(face, eye[0], eye[1], eye[2], point[0], point[1], point[2], unfolded))
        return from;
      const [u, v] = leastSlope(unfolded, face.halfU_m, face.halfV_m);
      return at(u, v, unfolded.side);
    },
    walk: (from, direction, distance_m) => {
      const d = subtract(add(from.point_m, scale(direction, distance_m)), face.centre_m);
      return at(dot(d, face.u), dot(d, face.v), sideOf(from.normal));
    },
  };
}

/**
 * The point of the rectangle with the least microfacet slope toward the mirrored point: slope² is a quadratic form in the
 * distance from q₀, steeper across the plane of incidence than along it (`unfolding.ts`), so turns along u and v alone
 * end in its least.
 */
function leastSlope({ qu, qv, eu, ev, cosine }: Unfolding, halfU: number, halfV: number): [number, number] {
  const clamp = (x: number, half: number) => Math.min(half, Math.max(-half, x));
  const c2 = cosine * cosine;
  // slope² ∝ c²·along² + across²/c² as a matrix in u, v.
  const uu = c2 * eu * eu + (ev * ev) / c2;
  const vv = c2 * ev * ev + (eu * eu) / c2;
  const uv = (c2 - 1 / c2) * eu * ev;
  let u = clamp(qu, halfU);
  let v = clamp(qv, halfV);
  for (let i = 0; i < TURNS; i++) {
    u = clamp(qu - (uv * (v - qv)) / uu, halfU);
    v = clamp(qv - (uv * (u - qu)) / vv, halfV);
  }
  return [u, v];
}

const TURNS = 16;
