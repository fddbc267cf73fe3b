import { type Crossings, type Ray, toLocal } from './ray.ts';
import { acrossAxisSquared, missDistanceSquared, recentre, tubeDiscriminant } from './ray-round.ts';
import { PARAMETERS, SEAM_m } from './shape-record.ts';

/**
 * An arc is the part of the tube x² + z² = r² with |y| ≤ h and x ≥ r·cos(half its span): an open sheet that a line
 * may pass twice, neither time or once.
 */
const local = new Float64Array(6);

export function arcCrossings(records: Float64Array, at: number, ray: Ray, found: Crossings): boolean {
  const r = records[at + PARAMETERS]!;
  const h = records[at + PARAMETERS + 1]! + SEAM_m;
  toLocal(records, at, ray, local);
  const closest = recentre(local, ray);
  if (!(missDistanceSquared(local) < r * r + h * h)) return false;
  const a = acrossAxisSquared(local, ray);
  if (a === 0) return false;
  const discriminant = tubeDiscriminant(local, a, r);
  if (!(discriminant > 0)) return false;

  const b = local[0]! * local[3]! + local[2]! * local[5]!;
  const root = Math.sqrt(discriminant);
  const leastX = r * records[at + PARAMETERS + 2]!;
  const enter = (-b - root) / a;
  const exit = (-b + root) / a;
  const entersSheet = onSheet(enter, h, leastX);
  const leavesSheet = onSheet(exit, h, leastX);
  if (!entersSheet && !leavesSheet) return false;
  found.t0 = closest + (entersSheet ? enter : exit);
  found.t1 = entersSheet && leavesSheet ? closest + exit : Number.NaN;
  return true;
}

function onSheet(t: number, h: number, leastX: number): boolean {
  return Math.abs(local[1]! + t * local[4]!) <= h && local[0]! + t * local[3]! >= leastX;
}
