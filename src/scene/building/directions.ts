import { degreesFromRadians, radiansFromDegrees } from '../../core/math/angle.ts';
import type { Vec3 } from '../../core/math/vec3.ts';

/** A level unit vector from one point toward another; toward +z where they stand over each other. */
export function levelToward(from_m: Vec3, to_m: Vec3): Vec3 {
  const [dx, dz] = [to_m[0] - from_m[0], to_m[2] - from_m[2]];
  const length = Math.hypot(dx, dz);
  return length > 1e-6 ? [dx / length, 0, dz / length] : [0, 0, 1];
}

export function levelDistance_m(from_m: Vec3, to_m: Vec3): number {
  return Math.hypot(to_m[0] - from_m[0], to_m[2] - from_m[2]);
}

/** To the right hand of someone who looks along a level direction. */
export function rightOf(forward: Vec3): Vec3 {
  return [-forward[2], 0, forward[0]];
}

/** A level direction turned to the right by an angle, as seen from above by someone who looks along it. */
export function turnedRight(forward: Vec3, angle_deg: number): Vec3 {
  const [c, s] = [Math.cos(radiansFromDegrees(angle_deg)), Math.sin(radiansFromDegrees(angle_deg))];
  const right = rightOf(forward);
  return [c * forward[0] + s * right[0], 0, c * forward[2] + s * right[2]];
}

/** The heading that looks along a direction: 0 along +z, 90 along +x; whole degrees, 0 to 359. */
export function headingOf_deg(direction: Vec3): number {
  const heading = Math.round(degreesFromRadians(Math.atan2(direction[0], direction[2])));
  return ((heading % 360) + 360) % 360;
}

/** How far a direction is turned to the right of another on plan, −180 to 180 degrees. */
export function rightTurn_deg(from: Vec3, to: Vec3): number {
  const right = rightOf(from);
  const along = from[0] * to[0] + from[2] * to[2];
  const across = right[0] * to[0] + right[2] * to[2];
  return degreesFromRadians(Math.atan2(across, along));
}
