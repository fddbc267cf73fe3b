/**
 * Daylight and twilight on level ground under a clear sky, by the sun's altitude a (of its centre, without refraction, degrees):
 *   log₁₀ E = l₀ + l₁x + l₂x² + l₃x³,  x = a/90,
 * in six stretches. Source: P. M. Janiczek, J. A. DeYoung, Computer Programs for Sun and Moon Illuminance, U.S. Naval
 * Observatory Circular 171, 1987; also in P. K. Seidelmann (ed.), Explanatory Supplement to the Astronomical Almanac, 1992.
 * Coefficients from memory, compared with two public programs that hold the same. Fit to its table within 0.02 in log₁₀;
 * a real clear sky within ±1 stop. From −18° to 90°; under −18° the sun gives nothing.
 */
import { atAltitude, type Stretch } from './altitude-polynomial.ts';

const SUN: readonly Stretch[] = [
  { from_deg: 20, coefficients: [3.74, 3.97, -4.07, 1.47] },
  { from_deg: 5, coefficients: [3.05, 13.28, -45.98, 64.33] },
  { from_deg: -0.8, coefficients: [2.88, 22.26, -207.64, 1034.3] },
  { from_deg: -5, coefficients: [2.88, 21.81, -258.11, -858.36] },
  { from_deg: -12, coefficients: [2.7, 12.17, -431.69, -1899.83] },
  { from_deg: -18, coefficients: [13.84, 262.72, 1447.42, 2797.93] },
];

/** Illuminance of a level, open receptor from sun and sunlit sky. */
export function sunIlluminance_lx(altitude_deg: number): number {
  const log = atAltitude(SUN, altitude_deg);
  return log === null ? 0 : 10 ** log;
}
