import { type Placement, worldDirection, worldPoint } from '../geometry/placement.ts';
import type { Shape } from '../geometry/shape.ts';
import { arcSpan } from '../geometry/shape-record.ts';
import { radiansFromDegrees } from '../math/angle.ts';
import { add, dot, length, normalize, scale, subtract, type Vec3 } from '../math/vec3.ts';
import { innerReflections, outerReflection, type PlanePoints, signedTurn } from './circle-reflection.ts';
import type { Mirror, MirrorPoint } from './reflector.ts';

/**
 * Round mirrors. A tube keeps the part of a direction that is along its axis, so the way of light, looked at along the
 * axis, is reflected in a circle, and the height on the way goes as the distance in that view. A sphere mirrors within
 * the plane through its centre and both ends. Exact for the shape as drawn; the thing as built is another matter.
 */
export interface Tube {
  readonly placement: Placement;
  readonly radius_m: number;
  readonly halfHeight_m: number;
  /** The angle about the axis of its middle, from x toward z, and half of what it spans. */
  readonly middle: number;
  readonly half: number;
  /** Whether its inner side can be seen. */
  readonly open: boolean;
}

/** The tube of a cylinder's side, of a capsule's straight part, or of an arc; null for other shapes. */
export function tubeOf(shape: Shape): Tube | null {
  switch (shape.kind) {
    case 'cylinder':
      return closedTube(shape.placement, shape.radius_m, shape.halfHeight_m);
    case 'capsule':
      return closedTube(shape.placement, shape.radius_m, shape.halfLength_m);
    case 'arc': {
      const half = arcSpan(shape) / 2;
      const middle = radiansFromDegrees(shape.from_deg) + half;
      const { placement, radius_m, halfHeight_m } = shape;
      return { placement, radius_m, halfHeight_m, middle, half, open: true };
    }
    default:
      return null;
  }
}

function closedTube(placement: Placement, radius_m: number, halfHeight_m: number): Tube {
  return { placement, radius_m, halfHeight_m, middle: 0, half: Math.PI, open: false };
}

export function tubeMirror(tube: Tube, part: number): Mirror {
  const { placement, radius_m: R, halfHeight_m, middle, half } = tube;
  const local = (p: Vec3): Vec3 => {
    const d = subtract(p, placement.origin_m);
    return [dot(d, placement.x), dot(d, placement.y), dot(d, placement.z)];
  };
  const at = (phi: number, y: number, side: number): MirrorPoint => {
    const [c, s] = [Math.cos(phi), Math.sin(phi)];
    return {
      point_m: worldPoint(placement, [R * c, y, R * s]),
      normal: worldDirection(placement, [side * c, 0, side * s]),
      part,
      within: Math.abs(y) <= halfHeight_m && Math.abs(signedTurn(phi - middle)) <= half,
    };
  };
  const height = (c: Vec3, s: Vec3, phi: number) => {
    const [x, z] = [R * Math.cos(phi), R * Math.sin(phi)];
    const a = Math.hypot(c[0] - x, c[2] - z);
    const b = Math.hypot(s[0] - x, s[2] - z);
    return c[1] + ((s[1] - c[1]) * a) / (a + b);
  };
  const mirrored = (eye: Vec3, point: Vec3): MirrorPoint[] => {
    const [c, s] = [local(eye), local(point)];
    const plane: PlanePoints = { cx: c[0], cy: c[2], sx: s[0], sy: s[2] };
    const outer = outerReflection(R, plane);
    const inner = tube.open ? innerReflections(R, plane, middle, Math.min(Math.PI, half + MARGIN)) : [];
    return [
      ...(outer === null ? [] : [at(outer, height(c, s, outer), 1)]),
      ...inner.map((phi) => at(phi, height(c, s, phi), -1)),
    ];
  };
  const angles = (p: MirrorPoint) => {
    const [x, y, z] = local(p.point_m);
    const side = dot(p.normal, subtract(p.point_m, worldPoint(placement, [0, y, 0]))) > 0 ? 1 : -1;
    return { phi: Math.atan2(z, x), y, side };
  };
  return {
    holds: (other) => other === part,
    approximate: true,
    mirrored,
    follow: (eye, point, from) => nearestTo(from, mirrored(eye, point)),
    nearestWithin: (_eye, _point, from) => {
      if (from.within) return from;
      const { phi, y, side } = angles(from);
      const turn = Math.min(half, Math.max(-half, signedTurn(phi - middle)));
      return at(middle + turn, Math.min(halfHeight_m, Math.max(-halfHeight_m, y)), side);
    },
    walk: (from, direction, distance_m) => {
      const { phi, y, side } = angles(from);
      const round: Vec3 = worldDirection(placement, [-Math.sin(phi), 0, Math.cos(phi)]);
      const turn = (distance_m * dot(direction, round)) / R;
      return at(phi + turn, y + distance_m * dot(direction, placement.y), side);
    },
  };
}

/** An inner image may lie a little past the edge while the rim of the lamp is still mirrored. */
const MARGIN = 0.2;

/** `reach` says which directions from the centre belong to it: the ends of a capsule are half spheres. */
export function sphereMirror(
  centre_m: Vec3,
  radius_m: number,
  reach: (direction: Vec3) => boolean,
  part: number,
): Mirror {
  const at = (normal: Vec3): MirrorPoint => ({
    point_m: add(centre_m, scale(normal, radius_m)),
    normal,
    part,
    within: reach(normal),
  });
  const follow = (eye: Vec3, point: Vec3): MirrorPoint | null => {
    const [c, s] = [subtract(eye, centre_m), subtract(point, centre_m)];
    const e = normalize(c);
    const across = subtract(s, scale(e, dot(s, e)));
    // In line with the centre any plane through it will do.
    const f = length(across) > 1e-12 * length(s) ? normalize(across) : ([0, 0, 0] as Vec3);
    const phi = outerReflection(radius_m, { cx: length(c), cy: 0, sx: dot(s, e), sy: dot(s, f) });
    return phi === null ? null : at(add(scale(e, Math.cos(phi)), scale(f, Math.sin(phi))));
  };
  return {
    holds: (other) => other === part,
    approximate: true,
    mirrored: (eye, point) => {
      const found = follow(eye, point);
      return found ? [found] : [];
    },
    follow,
    nearestWithin: (_eye, _point, from) => from,
    walk: (from, direction, distance_m) => {
      const turn = distance_m / radius_m;
      return at(add(scale(from.normal, Math.cos(turn)), scale(direction, Math.sin(turn))));
    },
  };
}

function nearestTo(from: MirrorPoint, found: readonly MirrorPoint[]): MirrorPoint | null {
  let best: MirrorPoint | null = null;
  for (const q of found) {
    if (dot(q.normal, from.normal) < SAME_BRANCH) continue;
    if (!best || dot(q.normal, from.normal) > dot(best.normal, from.normal)) best = q;
  }
  return best;
}

/** Images whose normals differ by more are others. */
const SAME_BRANCH = 0.8;
