import { type Crossings, type Ray, toLocal } from './ray.ts';
import { acrossAxisSquared, missDistanceSquared, recentre, tubeDiscriminant } from './ray-round.ts';
import { PARAMETERS } from './shape-record.ts';

/**
 * A capsule lies inside the endless tube of its radius. Where the line enters (leaves) the tube between the ends of
 * the straight part, it enters (leaves) the capsule; beyond an end, it does so on the ball at that end or not at all.
 */
const local = new Float64Array(6);

export function capsuleCrossings(records: Float64Array, at: number, ray: Ray, found: Crossings): boolean {
  const r = records[at + PARAMETERS]!;
  const h = records[at + PARAMETERS + 1]!;
  toLocal(records, at, ray, local);
  const closest = recentre(local, ray);
  if (!(missDistanceSquared(local) < (r + h) * (r + h))) return false;

  const qy = local[4]!;
  const a = acrossAxisSquared(local, ray);
  let enter = Number.NaN;
  let exit = Number.NaN;
  // Along the axis, the tube is entered below everything and left above it (seen along the line).
  let enterHeight = qy > 0 ? Number.NEGATIVE_INFINITY : Number.POSITIVE_INFINITY;
  let exitHeight = -enterHeight;
  if (a > 0) {
    const discriminant = tubeDiscriminant(local, a, r);
    if (!(discriminant > 0)) return false;
    const b = local[0]! * local[3]! + local[2]! * local[5]!;
    const root = Math.sqrt(discriminant);
    enter = (-b - root) / a;
    exit = (-b + root) / a;
    enterHeight = local[1]! + enter * qy;
    exitHeight = local[1]! + exit * qy;
  }
  if (Math.abs(enterHeight) > h) enter = ballCrossing(enterHeight > 0 ? h : -h, r, ray.dd, -1);
  if (Math.abs(exitHeight) > h) exit = ballCrossing(exitHeight > 0 ? h : -h, r, ray.dd, 1);
  if (!(enter <= exit)) return false;
  found.t0 = closest + enter;
  found.t1 = closest + exit;
  return true;
}

/** Where the local line enters (sense −1) or leaves (+1) the ball of radius r about (0, y, 0); NaN if it misses. */
function ballCrossing(y: number, r: number, dd: number, sense: number): number {
  const qy = local[4]!;
  // p is already the closest approach to the origin, p·q = 0: only the ball's own offset counts.
  const t = (y * qy) / dd;
  const mx = local[0]! + t * local[3]!;
  const my = local[1]! - y + t * qy;
  const mz = local[2]! + t * local[5]!;
  return t + sense * Math.sqrt((r * r - (mx * mx + my * my + mz * mz)) / dd);
}
