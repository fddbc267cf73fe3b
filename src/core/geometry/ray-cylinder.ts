import { type Crossings, type Ray, toLocal } from './ray.ts';
import { acrossAxisSquared, missDistanceSquared, recentre, tubeDiscriminant } from './ray-round.ts';
import { PARAMETERS } from './shape-record.ts';

/**
 * A closed cylinder is where the endless tube x² + z² ≤ r² and the slab |y| ≤ h overlap: inside from the later
 * entry to the earlier exit.
 */
export const SIDE = 0;
export const CAP = 1;

const local = new Float64Array(6);

export function cylinderCrossings(records: Float64Array, at: number, ray: Ray, found: Crossings): boolean {
  const r = records[at + PARAMETERS]!;
  const h = records[at + PARAMETERS + 1]!;
  toLocal(records, at, ray, local);
  const closest = recentre(local, ray);
  if (!(missDistanceSquared(local) < r * r + h * h)) return false;

  let enter = Number.NEGATIVE_INFINITY;
  let exit = Number.POSITIVE_INFINITY;
  const a = acrossAxisSquared(local, ray);
  if (a > 0) {
    const discriminant = tubeDiscriminant(local, a, r);
    if (!(discriminant > 0)) return false;
    const b = local[0]! * local[3]! + local[2]! * local[5]!;
    const root = Math.sqrt(discriminant);
    enter = (-b - root) / a;
    exit = (-b + root) / a;
  } else if (local[0]! * local[0]! + local[2]! * local[2]! > r * r) return false;

  let enterFace = SIDE;
  let exitFace = SIDE;
  const y = local[1]!;
  const qy = local[4]!;
  if (qy === 0) {
    if (Math.abs(y) > h) return false;
  } else {
    const reach = qy > 0 ? h : -h;
    const t0 = (-reach - y) / qy;
    const t1 = (reach - y) / qy;
    if (t0 > enter) {
      enter = t0;
      enterFace = CAP;
    }
    if (t1 < exit) {
      exit = t1;
      exitFace = CAP;
    }
  }
  if (!(enter <= exit)) return false;
  found.t0 = closest + enter;
  found.t1 = closest + exit;
  found.face0 = enterFace;
  found.face1 = exitFace;
  return true;
}
