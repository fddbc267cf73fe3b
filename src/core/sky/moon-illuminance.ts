/**
 * Moonlight on level ground under a clear sky: that of a full moon at its mean distance by its altitude (without refraction), less
 * the loss of the phase f (degrees from full, 180 at new), and the nearer the more:
 *   log₁₀ E = l₀ + l₁x + l₂x² + l₃x³ − 0.00868·f − 2.2e-9·f⁴ + 2·log₁₀(π/0.951°),  x = a/90,
 * with π the horizontal parallax, 0.951° at the mean distance. Source: as for the sun (Circular 171, 1987), coefficients
 * from memory, compared with two public programs. Fit to its table within 0.03 in log₁₀; a real clear night within ±1 stop.
 * From −0.8° to 90°; a moon that has set gives nothing. Without the few hours' surge at exactly full.
 */
import { degreesFromRadians } from '../math/angle.ts';
import { positive } from '../units/quantity.ts';
import { atAltitude, type Stretch } from './altitude-polynomial.ts';

const FULL_MOON: readonly Stretch[] = [
  { from_deg: 20, coefficients: [-1.95, 4.06, -4.24, 1.56] },
  { from_deg: 5, coefficients: [-2.58, 12.58, -42.58, 59.06] },
  { from_deg: -0.8, coefficients: [-2.79, 24.27, -252.95, 1321.29] },
];
const MEAN_PARALLAX_deg = 0.951;
const EARTH_RADIUS_km = 6378.14;

/** Illuminance of a level, open receptor; `phase_deg` is the angle sun–moon–earth: 0 full, 180 new. */
export function moonIlluminance_lx(altitude_deg: number, phase_deg: number, distance_km: number): number {
  const log = atAltitude(FULL_MOON, altitude_deg);
  if (log === null) return 0;
  const parallax_deg = degreesFromRadians(
    Math.asin(EARTH_RADIUS_km / positive(distance_km, 'distance in km')),
  );
  const f = Math.abs(phase_deg);
  return 10 ** (log - 0.00868 * f - 2.2e-9 * f ** 4 + 2 * Math.log10(parallax_deg / MEAN_PARALLAX_deg));
}
