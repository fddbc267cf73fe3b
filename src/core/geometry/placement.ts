import { radiansFromDegrees } from '../math/angle.ts';
import type { Vec3 } from '../math/vec3.ts';

/** Where a shape's own frame stands in the world: its origin and its three orthonormal axes. */
export interface Placement {
  readonly origin_m: Vec3;
  readonly x: Vec3;
  readonly y: Vec3;
  readonly z: Vec3;
}

export const WORLD: Placement = { origin_m: [0, 0, 0], x: [1, 0, 0], y: [0, 1, 0], z: [0, 0, 1] };

/**
 * Placement from a position and the document's `rotation_deg` [x, y, z]: heading (y), then tilt (x), then bank (z),
 * each about the axes already turned. As a matrix acting on local points: R = R_y · R_x · R_z.
 */
export function placementFrom(position_m: Vec3, rotation_deg: Vec3 = [0, 0, 0]): Placement {
  const [tilt, heading, bank] = [
    radiansFromDegrees(rotation_deg[0]),
    radiansFromDegrees(rotation_deg[1]),
    radiansFromDegrees(rotation_deg[2]),
  ];
  const [cx, sx] = [Math.cos(tilt), Math.sin(tilt)];
  const [cy, sy] = [Math.cos(heading), Math.sin(heading)];
  const [cz, sz] = [Math.cos(bank), Math.sin(bank)];
  return {
    origin_m: position_m,
    x: [cy * cz + sy * sx * sz, cx * sz, -sy * cz + cy * sx * sz],
    y: [-cy * sz + sy * sx * cz, cx * cz, sy * sz + cy * sx * cz],
    z: [sy * cx, -sx, cy * cx],
  };
}

/** World direction of a local one. */
export function worldDirection(placement: Placement, local: Vec3): Vec3 {
  const { x, y, z } = placement;
  return [
    x[0] * local[0] + y[0] * local[1] + z[0] * local[2],
    x[1] * local[0] + y[1] * local[1] + z[1] * local[2],
    x[2] * local[0] + y[2] * local[1] + z[2] * local[2],
  ];
}

/** World point of a local one. */
export function worldPoint(placement: Placement, local: Vec3): Vec3 {
  const d = worldDirection(placement, local);
  return [placement.origin_m[0] + d[0], placement.origin_m[1] + d[1], placement.origin_m[2] + d[2]];
}

/** The placement of `inner`, given in the frame of `outer`, in the world. */
export function placementWithin(outer: Placement, inner: Placement): Placement {
  return {
    origin_m: worldPoint(outer, inner.origin_m),
    x: worldDirection(outer, inner.x),
    y: worldDirection(outer, inner.y),
    z: worldDirection(outer, inner.z),
  };
}
