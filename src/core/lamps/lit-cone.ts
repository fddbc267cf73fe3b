import { madeOnce } from '../memo/made-once.ts';
import type { Distribution } from '../photometry/distribution.ts';
import { intensityToward } from '../photometry/intensity.ts';
import type { Face } from './face.ts';
import { faceRadius_m } from './face.ts';
import type { LampFrame } from './lamp-frame.ts';

/** A cone round a lamp's axis outside of which it shines less than a share of its peak, from anywhere on its face. */
export interface LitCone {
  readonly apex_m: Float64Array;
  readonly axis: Float64Array;
  readonly cosine: number;
}

const STEP_deg = 0.5;
/** Wider cones are no help: the whole ray does as well. */
const WIDEST_deg = 80;

/** Null for a lamp that shines widely. The apex stands behind the face, so that the cone holds all of it. */
export function litCone(
  frame: LampFrame,
  face: Face,
  distribution: Distribution,
  share: number,
): LitCone | null {
  const half_deg = edgeAngle_deg(distribution, share);
  if (half_deg > WIDEST_deg) return null;
  const half = (Math.max(half_deg, STEP_deg) * Math.PI) / 180;
  const back = faceRadius_m(face) / Math.tan(half);
  const { origin_m, a } = frame;
  return {
    apex_m: Float64Array.of(origin_m[0] - back * a[0], origin_m[1] - back * a[1], origin_m[2] - back * a[2]),
    axis: Float64Array.from(a),
    cosine: Math.cos(half),
  };
}

/** The angle from the axis beyond which no direction has more than a share of the peak. */
function edgeAngle_deg(distribution: Distribution, share: number): number {
  const rings = ringsOf(distribution);
  const peak = Math.max(...rings);
  const last = rings.findLastIndex((most) => most > share * peak);
  return (last + 1) * STEP_deg;
}

/** The greatest intensity at each angle from the axis; a lamp that moves keeps its distribution. */
const ringsOf = madeOnce((distribution: Distribution): readonly number[] =>
  Array.from({ length: 180 / STEP_deg + 1 }, (_, i) => {
    const gamma = (i * STEP_deg * Math.PI) / 180;
    let most = 0;
    for (let k = 0; k < 24; k++) {
      const C = (k * Math.PI) / 12;
      const s = Math.sin(gamma);
      most = Math.max(most, intensityToward(distribution, s * Math.cos(C), s * Math.sin(C), Math.cos(gamma)));
    }
    return most;
  }),
);

/** A stretch of a ray. */
export interface Stretch {
  from: number;
  to: number;
}

/** The part of 0..D of a ray that lies in the cone; false where none does. A cone is convex, so it is one stretch. */
export function withinCone(
  { apex_m, axis, cosine }: LitCone,
  ox: number,
  oy: number,
  oz: number,
  dx: number,
  dy: number,
  dz: number,
  D: number,
  stretch: Stretch,
): boolean {
  const [qx, qy, qz] = [ox - apex_m[0]!, oy - apex_m[1]!, oz - apex_m[2]!];
  const da = dx * axis[0]! + dy * axis[1]! + dz * axis[2]!;
  const qa = qx * axis[0]! + qy * axis[1]! + qz * axis[2]!;
  const c2 = cosine * cosine;
  // (X·a)² − cos²·|X|² ≥ 0 along X = q + t·d, on the side of the cone where X·a > 0.
  const A = da * da - c2;
  const B = qa * da - c2 * (qx * dx + qy * dy + qz * dz);
  const C = qa * qa - c2 * (qx * qx + qy * qy + qz * qz);
  const disc = B * B - A * C;
  let from = 0;
  let to = D;
  if (Math.abs(A) > 1e-12) {
    if (disc <= 0) return A > 0 && qa > 0 ? set(stretch, 0, D) : false;
    const root = Math.sqrt(disc);
    const t1 = (-B - Math.sign(A) * root) / A;
    const t2 = (-B + Math.sign(A) * root) / A;
    if (A > 0) {
      if (da > 0) from = t2;
      else to = t1;
    } else {
      if (qa + 0.5 * (t1 + t2) * da <= 0) return false;
      from = Math.min(t1, t2);
      to = Math.max(t1, t2);
    }
  }
  return set(stretch, Math.max(0, from), Math.min(D, to));
}

function set(stretch: Stretch, from: number, to: number): boolean {
  stretch.from = from;
  stretch.to = to;
  return to > from;
}
