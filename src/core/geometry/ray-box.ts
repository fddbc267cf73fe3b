import { type Crossings, type Ray, toLocal } from './ray.ts';
import { PARAMETERS } from './shape-record.ts';

/**
 * A box is where three slabs |p_i + t·q_i| ≤ h_i overlap; the line is inside from the last slab entered to the first
 * one left (Kay & Kajiya 1986). A line parallel to a slab is in it for ever or never, its own plane included.
 */
const local = new Float64Array(6);

export function boxCrossings(records: Float64Array, at: number, ray: Ray, found: Crossings): boolean {
  toLocal(records, at, ray, local);
  let enter = Number.NEGATIVE_INFINITY;
  let exit = Number.POSITIVE_INFINITY;
  let enterAxis = 0;
  let exitAxis = 0;
  for (let axis = 0; axis < 3; axis++) {
    const p = local[axis]!;
    const q = local[3 + axis]!;
    const h = records[at + PARAMETERS + axis]!;
    if (q === 0) {
      if (Math.abs(p) > h) return false;
      continue;
    }
    const reach = q > 0 ? h : -h;
    const t0 = (-reach - p) / q;
    const t1 = (reach - p) / q;
    if (t0 > enter) {
      enter = t0;
      enterAxis = axis;
    }
    if (t1 < exit) {
      exit = t1;
      exitAxis = axis;
    }
  }
  if (!(enter <= exit)) return false;
  found.t0 = enter;
  found.t1 = exit;
  found.face0 = enterAxis;
  found.face1 = exitAxis;
  return true;
}
