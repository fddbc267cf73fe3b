import { distance, type Vec3 } from '../../../core/math/vec3.ts';

/** How a thing stands to a point that is measured from, as a tape would be laid. */
export interface Dimensions {
  readonly dx_m: number;
  readonly dy_m: number;
  readonly dz_m: number;
  /** Over the ground, and straight through the air. */
  readonly level_m: number;
  readonly straight_m: number;
}

export function dimensionsFrom(datum_m: Vec3, point_m: Vec3): Dimensions {
  const [dx_m, dy_m, dz_m] = [point_m[0] - datum_m[0], point_m[1] - datum_m[1], point_m[2] - datum_m[2]];
  return { dx_m, dy_m, dz_m, level_m: Math.hypot(dx_m, dz_m), straight_m: distance(datum_m, point_m) };
}
