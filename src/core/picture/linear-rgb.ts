/**
 * Linear RGB with the primaries and white of IEC 61966-2-1 (the same as ITU-R BT.709), and CIE 1931 XYZ:
 *   (X, Y, Z) = P·(R, G, B), the columns of P the primaries' (x, y, z), scaled so that R = G = B = 1 is white of Y = 1.
 * P is worked out from the chromaticities, not entered rounded, so that there and back is exact. The standard prints P to
 * four decimals; its printed inverse is that of the rounded P and differs from ours by up to 5·10⁻⁴.
 * Colours outside the triangle of the primaries (sodium light, pure blue) have a negative component; that is no error.
 */
import type { Tristimulus } from '../spectra/observer.ts';
import { diagonal, inverse, type Matrix3, product, times, transposed } from './matrix3.ts';

/** Any scale: relative to the camera's zero, or in cd/m². */
export type LinearRgb = readonly [red: number, green: number, blue: number];

export interface Chromaticity {
  readonly x: number;
  readonly y: number;
}

/** CIE 1931 x, y of the primaries and of the white (D65). */
export const PRIMARIES = {
  red: { x: 0.64, y: 0.33 },
  green: { x: 0.3, y: 0.6 },
  blue: { x: 0.15, y: 0.06 },
  white: { x: 0.3127, y: 0.329 },
} as const satisfies Record<string, Chromaticity>;

/** X, Y, Z of a chromaticity at Y = 1. */
export function tristimulusAt({ x, y }: Chromaticity): Tristimulus {
  return [x / y, 1, (1 - x - y) / y];
}

export const XYZ_FROM_RGB: Matrix3 = normalisedPrimaries();
export const RGB_FROM_XYZ: Matrix3 = inverse(XYZ_FROM_RGB);

/** Parts that red, green and blue have in luminance; they add up to 1. */
export const LUMINANCE_WEIGHTS: LinearRgb = XYZ_FROM_RGB[1];

function normalisedPrimaries(): Matrix3 {
  const { red, green, blue, white } = PRIMARIES;
  const columns = transposed([tristimulusAt(red), tristimulusAt(green), tristimulusAt(blue)]);
  return product(columns, diagonal(times(inverse(columns), tristimulusAt(white))));
}

export function xyzFromLinearRgb(rgb: LinearRgb): Tristimulus {
  return times(XYZ_FROM_RGB, rgb);
}

/** Components may be negative: see above. */
export function linearRgbFromXyz(xyz: Tristimulus): LinearRgb {
  return times(RGB_FROM_XYZ, xyz);
}

/** Luminance Y, in the unit of the components. */
export function luminanceOfRgb([red, green, blue]: LinearRgb): number {
  return LUMINANCE_WEIGHTS[0] * red + LUMINANCE_WEIGHTS[1] * green + LUMINANCE_WEIGHTS[2] * blue;
}
