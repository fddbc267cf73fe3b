import {
  type LinearRgb,
  PRIMARIES,
  tristimulusAt,
  xyzFromLinearRgb,
} from '../../../src/core/picture/linear-rgb.ts';

export type Lab = readonly [L: number, a: number, b: number];

/** CIE 1976 L*a*b* (CIE 15, ISO/CIE 11664-4) of a display colour, white the display's own. */
export function labOf(rgb: LinearRgb): Lab {
  const white = tristimulusAt(PRIMARIES.white);
  const [x, y, z] = xyzFromLinearRgb(rgb).map((value, i) => cubeRoot(value / white[i]!));
  return [116 * y! - 16, 500 * (x! - y!), 200 * (y! - z!)];
}

export function differenceOf(p: Lab, q: Lab): number {
  return Math.hypot(p[0] - q[0], p[1] - q[1], p[2] - q[2]);
}

function cubeRoot(t: number): number {
  return t > (6 / 29) ** 3 ? Math.cbrt(t) : (t * (29 / 6) ** 2) / 3 + 4 / 29;
}
