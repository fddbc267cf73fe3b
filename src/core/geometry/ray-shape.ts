import type { Geometry } from './geometry.ts';
import { type Crossings, type Ray, toLocal } from './ray.ts';
import { arcCrossings } from './ray-arc.ts';
import { boxCrossings } from './ray-box.ts';
import { capsuleCrossings } from './ray-capsule.ts';
import { CAP, cylinderCrossings } from './ray-cylinder.ts';
import { panelCrossings } from './ray-panel.ts';
import { sphereCrossings } from './ray-sphere.ts';
import { triangleCrossings } from './ray-triangle.ts';
import {
  ARC,
  BOX,
  CAPSULE,
  CYLINDER,
  ORIGIN,
  PANEL,
  PARAMETERS,
  RECORD_STRIDE,
  SPHERE,
  TRIANGLE,
} from './shape-record.ts';

/** What a ray met. Owned by the caller and overwritten by every query that finds something. */
export interface Hit {
  /** In lengths of the ray's direction. */
  t: number;
  /** Index of the part. */
  shape: number;
  /** Unit normal: outward from a closed shape; toward the front of a sheet (panel, arc, triangle). */
  nx: number;
  ny: number;
  nz: number;
  /** The ray came from the side the normal points to. */
  front: boolean;
}

export function newHit(): Hit {
  return { t: Number.NaN, shape: -1, nx: Number.NaN, ny: Number.NaN, nz: Number.NaN, front: false };
}

/** Everywhere the endless line of `ray` meets a shape; false, and `found` undefined, where it does not. */
export function shapeCrossings(geometry: Geometry, shape: number, ray: Ray, found: Crossings): boolean {
  const { records } = geometry;
  const at = shape * RECORD_STRIDE;
  switch (geometry.kinds[shape]) {
    case BOX:
      return boxCrossings(records, at, ray, found);
    case CYLINDER:
      return cylinderCrossings(records, at, ray, found);
    case SPHERE:
      return sphereCrossings(records, at, ray, found);
    case CAPSULE:
      return capsuleCrossings(records, at, ray, found);
    case PANEL:
      return panelCrossings(geometry, shape, ray, found);
    case ARC:
      return arcCrossings(records, at, ray, found);
    case TRIANGLE:
      return triangleCrossings(records, at, ray, found);
    default:
      return false;
  }
}

const local = new Float64Array(6);
const found: Crossings = { t0: Number.NaN, t1: Number.NaN, face0: 0, face1: 0 };

/** Completes `hit`, whose shape and t are known, with the normal there and the side the ray came from. */
export function completeHit(geometry: Geometry, ray: Ray, hit: Hit): void {
  const { records, kinds } = geometry;
  const kind = kinds[hit.shape]!;
  const at = hit.shape * RECORD_STRIDE;
  const { line } = ray;
  if (kind === TRIANGLE)
    setNormal(hit, records[at + ORIGIN]!, records[at + ORIGIN + 1]!, records[at + ORIGIN + 2]!);
  else if (kind === SPHERE) {
    setNormal(
      hit,
      line[0]! - records[at + ORIGIN]! + hit.t * line[3]!,
      line[1]! - records[at + ORIGIN + 1]! + hit.t * line[4]!,
      line[2]! - records[at + ORIGIN + 2]! + hit.t * line[5]!,
    );
  } else {
    toLocal(records, at, ray, local);
    const x = local[0]! + hit.t * local[3]!;
    const y = local[1]! + hit.t * local[4]!;
    const z = local[2]! + hit.t * local[5]!;
    switch (kind) {
      case PANEL:
        turnNormal(hit, records, at, 0, 0, 1);
        break;
      case ARC:
        turnNormal(hit, records, at, x, 0, z);
        break;
      case CAPSULE: {
        const h = records[at + PARAMETERS + 1]!;
        turnNormal(hit, records, at, x, y - Math.max(-h, Math.min(h, y)), z);
        break;
      }
      default: {
        // Which face was met is known only from how it was met: at an edge the point alone cannot tell.
        shapeCrossings(geometry, hit.shape, ray, found);
        const entering = hit.t === found.t0;
        const face = entering ? found.face0 : found.face1;
        if (kind === CYLINDER && face !== CAP) turnNormal(hit, records, at, x, 0, z);
        else {
          const axis = kind === CYLINDER ? 1 : face;
          const outward = local[3 + axis]! > 0 === entering ? -1 : 1;
          turnNormal(
            hit,
            records,
            at,
            axis === 0 ? outward : 0,
            axis === 1 ? outward : 0,
            axis === 2 ? outward : 0,
          );
        }
      }
    }
  }
  hit.front = line[3]! * hit.nx + line[4]! * hit.ny + line[5]! * hit.nz < 0;
}

/** Normal from a direction in the shape's own frame. */
function turnNormal(hit: Hit, records: Float64Array, at: number, x: number, y: number, z: number): void {
  setNormal(
    hit,
    x * records[at]! + y * records[at + 3]! + z * records[at + 6]!,
    x * records[at + 1]! + y * records[at + 4]! + z * records[at + 7]!,
    x * records[at + 2]! + y * records[at + 5]! + z * records[at + 8]!,
  );
}

function setNormal(hit: Hit, x: number, y: number, z: number): void {
  const length = Math.sqrt(x * x + y * y + z * z);
  hit.nx = x / length;
  hit.ny = y / length;
  hit.nz = z / length;
}
