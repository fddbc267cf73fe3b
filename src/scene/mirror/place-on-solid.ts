import { placementFrom } from '../../core/geometry/placement.ts';
import { dot, subtract, type Vec3 } from '../../core/math/vec3.ts';
import type { SceneDocument } from '../schema/document.ts';
import type { Solid } from '../schema/solid.ts';

/** Where on a solid or a figure a point is, in words and lengths that a crew can tape. */
export interface PlaceOnSolid {
  /** Which side of it; null where it has no sides to speak of. */
  readonly side: string | null;
  /** Along that side, from an end of it. */
  readonly from: string | null;
  readonly along_m: number | null;
  /** Over y = 0. */
  readonly height_m: number;
  /** Whether it is best found on plan: the surface lies flat. */
  readonly level: boolean;
}

/** The unit normal says on which side a point of an edge is. Unknown ids have a height only. */
export function placeOnSolid(
  document: SceneDocument,
  owner: string,
  point_m: Vec3,
  normal: Vec3,
): PlaceOnSolid {
  const solid = document.solids?.find(({ id }) => id === owner);
  const sided = solid ? sideOf(solid, point_m, normal) : null;
  return {
    side: sided?.side ?? null,
    from: sided?.from ?? null,
    along_m: sided?.along_m ?? null,
    height_m: point_m[1],
    level: Math.abs(normal[1]) > LEVEL,
  };
}

const LEVEL = 0.95;

/** Such as: right side, 4.20 m from the bow, 2.40 m up. */
export function placeText(place: PlaceOnSolid, point_m: Vec3): string {
  const { side, from, along_m, height_m, level } = place;
  const metres = (x: number) => `${x.toFixed(2)} m`.replace('-', '−');
  return [
    ...(side === null ? [] : [side]),
    ...(from === null || along_m === null ? [] : [`${metres(along_m)} from ${from}`]),
    level && along_m === null
      ? `at x ${metres(point_m[0])}, z ${metres(point_m[2])}`
      : `${metres(height_m)} up`,
  ].join(', ');
}

interface Sided {
  readonly side: string;
  readonly from?: string;
  readonly along_m?: number;
}

function sideOf(solid: Solid, point_m: Vec3, normal: Vec3): Sided | null {
  const { origin_m, x, y, z } = placementFrom(solid.position_m, solid.rotation_deg);
  const d = subtract(point_m, origin_m);
  const p: Vec3 = [dot(d, x), dot(d, y), dot(d, z)];
  const n: Vec3 = [dot(normal, x), dot(normal, y), dot(normal, z)];
  switch (solid.shape) {
    case 'vehicle':
      return vehicleSide(solid.name ?? solid.id, solid.size_m, p, n);
    case 'box':
      return boxSide(solid.size_m, p, n);
    case 'panel':
    case 'pane': {
      const front = n[2] > 0;
      return {
        side: front ? 'front' : 'back',
        from: `its left edge${front ? '' : ' as seen from behind'}`,
        along_m: solid.size_m[0] / 2 + (front ? p[0] : -p[0]),
      };
    }
    case 'cylinder':
      return Math.abs(n[1]) > LEVEL ? { side: n[1] > 0 ? 'top' : 'underside' } : { side: 'side' };
    default:
      return null;
  }
}

/** What floats has a bow and a stern. */
const VESSEL = /\b(boat|ship|ferry|barge|launch|vessel|yacht|tug)\b/i;

function vehicleSide(name: string, [length, height, width]: Vec3, p: Vec3, n: Vec3): Sided {
  const [front, back] = VESSEL.test(name) ? ['bow', 'stern'] : ['front', 'back'];
  const fromFront = { from: `the ${front}`, along_m: length / 2 - p[0] };
  const hand = p[2] > 0 ? 'right' : 'left';
  // Seen from within: a wall faces the middle, the ceiling and the floor face each other.
  const inside = n[0] * p[0] + n[2] * p[2] < 0 && Math.abs(n[1]) < LEVEL ? ', inside' : '';
  const most = Math.max(...n.map(Math.abs));
  if (Math.abs(n[0]) === most) {
    const end = p[0] > 0 ? front : back;
    return { side: `${end}${inside}`, from: 'its right side', along_m: width / 2 - p[2] };
  }
  if (Math.abs(n[1]) > LEVEL) {
    const above = p[1] > height / 2;
    const side = above ? (n[1] > 0 ? 'roof' : 'ceiling') : n[1] > 0 ? 'floor' : 'underside';
    return { side, ...fromFront };
  }
  if (Math.abs(n[1]) > EDGE) return { side: `${hand} roof edge${inside}`, ...fromFront };
  return { side: `${hand} side${inside}`, ...fromFront };
}

/** A wall stands upright; what leans this much is the rounded edge over it. */
const EDGE = 0.02;

function boxSide([sx, , sz]: Vec3, p: Vec3, n: Vec3): Sided {
  const most = Math.max(...n.map(Math.abs));
  if (Math.abs(n[1]) === most) return { side: n[1] > 0 ? 'top' : 'underside' };
  // Its front is toward local +z; left is as for someone who faces that side.
  if (Math.abs(n[2]) === most) {
    const front = n[2] > 0;
    return {
      side: front ? 'front' : 'back',
      from: 'its left edge',
      along_m: sx / 2 + (front ? p[0] : -p[0]),
    };
  }
  const right = n[0] > 0;
  return {
    side: right ? 'right side' : 'left side',
    from: 'its left edge',
    along_m: sz / 2 + (right ? -p[2] : p[2]),
  };
}
