/**
 * White balance: von Kries scaling in the Bradford cone space. With c = B·XYZ, each cone signal is scaled so that the
 * chosen white becomes the display's white (D65): M = B⁻¹·diag(c_D65/c_chosen)·B, here on linear RGB.
 * Source: von Kries 1902; the cone matrix B of Lam 1985 ("Bradford"), as ICC and CIECAM97s print it.
 * The chosen white is the black body up to 4000 K and CIE daylight from 5000 K; between, the two are mixed in CIE 1960
 * u, v in proportion to mired, so that turning the knob never jumps. Valid from 1000 to 25 000 K.
 * A neutral under the chosen white keeps its luminance exactly. Other whites change theirs: by less than 0.15 stop among
 * 3200–10 000 K, by 0.7 stop when light of 10 000 K is balanced for 2000 K. Developing the picture puts that right.
 */
import { uv1960FromXy } from '../spectra/chromaticity.ts';
import { daylightXy } from '../spectra/daylight.ts';
import { miredFromKelvin } from '../spectra/mired.ts';
import { planckianUv } from '../spectra/planckian-locus.ts';
import { type Chromaticity, PRIMARIES, RGB_FROM_XYZ, tristimulusAt, XYZ_FROM_RGB } from './linear-rgb.ts';
import { diagonal, inverse, type Matrix3, product, times } from './matrix3.ts';

const MIN_K = 1000;
const MAX_K = 25000;
const LAST_BLACK_BODY_K = 4000;
const FIRST_DAYLIGHT_K = 5000;

const BRADFORD: Matrix3 = [
  [0.8951, 0.2664, -0.1614],
  [-0.7502, 1.7135, 0.0367],
  [0.0389, -0.0685, 1.0296],
];
const BRADFORD_INVERSE = inverse(BRADFORD);

/** CIE 1931 chromaticity that a camera set to this colour temperature shows as neutral. RangeError outside 1000–25 000 K. */
export function balancedWhite(whiteBalance_K: number): Chromaticity {
  if (!(whiteBalance_K >= MIN_K && whiteBalance_K <= MAX_K)) {
    throw new RangeError(`white balance of ${whiteBalance_K} K is out of range; give ${MIN_K} to ${MAX_K} K`);
  }
  const mired = miredFromKelvin(whiteBalance_K);
  if (whiteBalance_K >= FIRST_DAYLIGHT_K) return daylightXy(whiteBalance_K);
  const blackBody = planckianUv(mired);
  if (whiteBalance_K <= LAST_BLACK_BODY_K) return xyFromUv1960(blackBody.u, blackBody.v);
  const { x, y } = daylightXy(whiteBalance_K);
  const daylight = uv1960FromXy(x, y);
  const first = miredFromKelvin(LAST_BLACK_BODY_K);
  const share = (first - mired) / (first - miredFromKelvin(FIRST_DAYLIGHT_K));
  return xyFromUv1960(
    blackBody.u + share * (daylight.u - blackBody.u),
    blackBody.v + share * (daylight.v - blackBody.v),
  );
}

/** The matrix that turns the light of one white into that of another, both at equal luminance, on XYZ. */
export function bradfordAdaptation(from: Chromaticity, to: Chromaticity): Matrix3 {
  const c = times(BRADFORD, tristimulusAt(from));
  const wanted = times(BRADFORD, tristimulusAt(to));
  const gains = diagonal([wanted[0] / c[0], wanted[1] / c[1], wanted[2] / c[2]]);
  return product(BRADFORD_INVERSE, product(gains, BRADFORD));
}

/** White balance as a matrix on linear RGB. RangeError outside 1000–25 000 K. */
export function whiteBalance(whiteBalance_K: number): Matrix3 {
  const onXyz = bradfordAdaptation(balancedWhite(whiteBalance_K), PRIMARIES.white);
  return product(RGB_FROM_XYZ, product(onXyz, XYZ_FROM_RGB));
}

function xyFromUv1960(u: number, v: number): Chromaticity {
  const D = 2 * u - 8 * v + 4;
  return { x: (3 * u) / D, y: (2 * v) / D };
}
