import type { Geometry } from './geometry.ts';
import { type Crossings, type Ray, toLocal } from './ray.ts';
import { PARAMETERS, RECORD_STRIDE, SEAM_m } from './shape-record.ts';

/**
 * A panel is met where the line passes the plane z = 0, within the outline and not strictly within an opening.
 * Outline and openings give SEAM_m to the sheet. A line in the panel's own plane meets nothing: it has no thickness.
 */
const local = new Float64Array(6);

export function panelCrossings(geometry: Geometry, shape: number, ray: Ray, found: Crossings): boolean {
  const { records, openings, openingStart } = geometry;
  const at = shape * RECORD_STRIDE;
  toLocal(records, at, ray, local);
  const qz = local[5]!;
  if (qz === 0) return false;
  const t = -local[2]! / qz;
  const x = local[0]! + t * local[3]!;
  const y = local[1]! + t * local[4]!;
  const hx = records[at + PARAMETERS]!;
  const hy = records[at + PARAMETERS + 1]!;
  if (!(Math.abs(x) <= hx + SEAM_m && Math.abs(y) <= hy + SEAM_m)) return false;

  const topRadius = records[at + PARAMETERS + 2]!;
  const beyondX = Math.abs(x) - (hx - topRadius);
  const beyondY = y - (hy - topRadius);
  if (topRadius > 0 && beyondX > 0 && beyondY > 0) {
    const reach = topRadius + SEAM_m;
    if (beyondX * beyondX + beyondY * beyondY > reach * reach) return false;
  }

  const end = 4 * openingStart[shape + 1]!;
  for (let i = 4 * openingStart[shape]!; i < end; i += 4)
    if (
      x > openings[i]! + SEAM_m &&
      y > openings[i + 1]! + SEAM_m &&
      x < openings[i + 2]! - SEAM_m &&
      y < openings[i + 3]! - SEAM_m
    )
      return false;
  found.t0 = t;
  found.t1 = Number.NaN;
  return true;
}
