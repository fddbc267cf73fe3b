import type { Vec3 } from '../math/vec3.ts';
import { BOUNDS_STRIDE } from './bounds.ts';
import type { Geometry } from './geometry.ts';
import { BOX, CAPSULE, CYLINDER, ORIGIN, PARAMETERS, RECORD_STRIDE, SPHERE } from './shape-record.ts';

/**
 * Index of a closed shape (box, cylinder, sphere, capsule) that has the point strictly inside it, the first listed of
 * several; −1 if none. A point on a surface, within a nanometre, is outside: things stand on things. Sheets and
 * meshes hold nothing: that they are closed is not known.
 */
export function solidAround(geometry: Geometry, point_m: Vec3): number {
  const [x, y, z] = point_m;
  const { bounds, skip, first, count, order } = geometry.hierarchy;
  let around = -1;
  let node = 0;
  while (node < skip.length) {
    const at = node * BOUNDS_STRIDE;
    const within =
      x >= bounds[at]! &&
      y >= bounds[at + 1]! &&
      z >= bounds[at + 2]! &&
      x <= bounds[at + 3]! &&
      y <= bounds[at + 4]! &&
      z <= bounds[at + 5]!;
    if (!within) {
      node = skip[node]!;
      continue;
    }
    const start = first[node]!;
    for (let i = start; i < start + count[node]!; i++) {
      const shape = order[i]!;
      if ((around < 0 || shape < around) && depthInside(geometry, shape, x, y, z) > SURFACE_m) around = shape;
    }
    node++;
  }
  return around;
}

const SURFACE_m = 1e-9;

/** How far a point lies under the nearest surface of a closed shape; negative outside. */
function depthInside(geometry: Geometry, shape: number, wx: number, wy: number, wz: number): number {
  const { records, kinds } = geometry;
  const at = shape * RECORD_STRIDE;
  const dx = wx - records[at + ORIGIN]!;
  const dy = wy - records[at + ORIGIN + 1]!;
  const dz = wz - records[at + ORIGIN + 2]!;
  const along = (axis: number) =>
    records[at + 3 * axis]! * dx + records[at + 3 * axis + 1]! * dy + records[at + 3 * axis + 2]! * dz;
  const a = records[at + PARAMETERS]!;
  const b = records[at + PARAMETERS + 1]!;
  switch (kinds[shape]) {
    case BOX:
      return Math.min(
        a - Math.abs(along(0)),
        b - Math.abs(along(1)),
        records[at + PARAMETERS + 2]! - Math.abs(along(2)),
      );
    case CYLINDER:
      return Math.min(a - Math.hypot(along(0), along(2)), b - Math.abs(along(1)));
    case SPHERE:
      return a - Math.hypot(dx, dy, dz);
    case CAPSULE:
      return a - Math.hypot(along(0), Math.max(0, Math.abs(along(1)) - b), along(2));
    default:
      return -1;
  }
}
