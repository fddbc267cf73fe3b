import type { Ray } from './ray.ts';

/**
 * What round shapes share. Each first moves the origin of the line to where it passes the shape's centre closest:
 * from kilometres away the quadratic would otherwise subtract large numbers that differ in their last digits only.
 */

/** sin² of the angle to a cylinder's axis under which a line counts as parallel: it drifts < 1 nm in a kilometre. */
const PARALLEL = 1e-24;

/** Moves p (0..2) of a local line to its closest approach to the local origin; returns the t of that point. */
export function recentre(local: Float64Array, ray: Ray): number {
  const t = -(local[0]! * local[3]! + local[1]! * local[4]! + local[2]! * local[5]!) / ray.dd;
  local[0]! += t * local[3]!;
  local[1]! += t * local[4]!;
  local[2]! += t * local[5]!;
  return t;
}

/** How far, squared, the (recentred) line stays from the local origin. */
export function missDistanceSquared(local: Float64Array): number {
  return local[0]! * local[0]! + local[1]! * local[1]! + local[2]! * local[2]!;
}

/** q_x² + q_z², or 0 where the line is parallel to the y axis. */
export function acrossAxisSquared(local: Float64Array, ray: Ray): number {
  const a = local[3]! * local[3]! + local[5]! * local[5]!;
  return a > PARALLEL * ray.dd ? a : 0;
}

/**
 * Discriminant of |p + t·q|² = r² in the xz-plane, quarter of the textbook's: a·r² − (p × q)², which does not lose
 * digits as b² − a·c does.
 */
export function tubeDiscriminant(local: Float64Array, acrossSquared: number, radius: number): number {
  const cross = local[0]! * local[5]! - local[2]! * local[3]!;
  return acrossSquared * radius * radius - cross * cross;
}
