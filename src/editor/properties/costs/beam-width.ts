import { radiansFromDegrees } from '../../../core/math/angle.ts';

/** How wide a beam of this full angle is across its axis at a distance; null where it is open to the side. */
export function beamWidth_m(angle_deg: number, distance_m: number): number | null {
  if (!(angle_deg > 0) || angle_deg >= 170) return null;
  return 2 * distance_m * Math.tan(radiansFromDegrees(angle_deg / 2));
}
