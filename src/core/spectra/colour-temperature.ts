/**
 * Correlated colour temperature and Duv: the temperature of the black body nearest in CIE 1960 u, v, and the distance to
 * it (CIE 15:2018). Duv > 0 above the locus (greenish), < 0 below (pinkish): Ohno, LEUKOS 10 (2014).
 * Method: the true nearest point, by solving (p(M) − q)·p′(M) = 0 in M = 10⁶/T, not an approximation formula.
 * Range searched: 800 K to 1 000 000 K. A colour whose nearest point is an end of that range has no colour temperature;
 * it reports the end and `white: false`.
 */
import { type Uv1960, uv1960Of } from './chromaticity.ts';
import { kelvinFromMired } from './mired.ts';
import type { Tristimulus } from './observer.ts';
import { planckianUv } from './planckian-locus.ts';

export interface ColourTemperature {
  readonly cct_K: number;
  readonly duv: number;
  /** False when |Duv| > 0.05, where the CIE says colour temperature has no meaning, or beyond the range searched. */
  readonly white: boolean;
}

const MIN_MIRED = 1;
const MAX_MIRED = 1250;
/** Above this the CIE gives colour temperature no meaning (CIE 15:2018). */
const WHITE_DUV = 0.05;

/** First look at the locus: every 4 mired or so, close enough that the curve hardly bends between neighbours. */
const COARSE_STEPS = 312;
const COARSE_MIRED = Float64Array.from(
  { length: COARSE_STEPS + 1 },
  (_, i) => MIN_MIRED + ((MAX_MIRED - MIN_MIRED) * i) / COARSE_STEPS,
);
const COARSE_LOCUS = Array.from(COARSE_MIRED, planckianUv);

/** Colour temperature of a colour; null when there is no light, because the dark has no colour. */
export function colourTemperatureOf(colour: Tristimulus): ColourTemperature | null {
  const [X, Y, Z] = colour;
  return X + Y + Z > 0 ? colourTemperatureAt(uv1960Of(colour)) : null;
}

/** Colour temperature of a point of the CIE 1960 diagram. RangeError when u or v is not a finite number. */
export function colourTemperatureAt({ u, v }: Uv1960): ColourTemperature {
  if (!Number.isFinite(u) || !Number.isFinite(v)) {
    throw new RangeError(`chromaticity u ${u}, v ${v}: both must be finite numbers`);
  }
  const mired = nearestMired(u, v);
  const nearest = planckianUv(mired);
  const distance = Math.hypot(u - nearest.u, v - nearest.v);
  const atEnd = mired === MIN_MIRED || mired === MAX_MIRED;
  return {
    cct_K: kelvinFromMired(mired),
    duv: v < nearest.v ? -distance : distance,
    white: !atEnd && distance <= WHITE_DUV,
  };
}

function nearestMired(u: number, v: number): number {
  let best = 0;
  let bestSquare = Number.POSITIVE_INFINITY;
  for (let i = 0; i <= COARSE_STEPS; i++) {
    const p = COARSE_LOCUS[i]!;
    const square = (p.u - u) ** 2 + (p.v - v) ** 2;
    if (square < bestSquare) [best, bestSquare] = [i, square];
  }
  /** Half the slope of the squared distance along the locus: below zero before the nearest point, above zero after. */
  const slope = (mired: number) => {
    const p = planckianUv(mired);
    return (p.u - u) * p.du + (p.v - v) * p.dv;
  };
  const slopeAtBest = slope(COARSE_MIRED[best]!);
  if (slopeAtBest === 0) return COARSE_MIRED[best]!;
  const other = slopeAtBest < 0 ? best + 1 : best - 1;
  if (other < 0) return MIN_MIRED;
  if (other > COARSE_STEPS) return MAX_MIRED;
  return rootBetween(slope, COARSE_MIRED[best]!, slopeAtBest, COARSE_MIRED[other]!);
}

/** Illinois false position: a secant that cannot leave the bracket. `fa` is f(a); without a change of sign, a itself. */
function rootBetween(f: (x: number) => number, a: number, fa: number, b: number): number {
  let fb = f(b);
  if (fa < 0 === fb < 0) return a;
  for (let i = 0; i < 60 && Math.abs(b - a) > 1e-11 * Math.abs(b); i++) {
    const c = b - (fb * (b - a)) / (fb - fa);
    const fc = f(c);
    if (fc === 0) return c;
    if (fc < 0 !== fb < 0) {
      a = b;
      fa = fb;
    } else {
      fa /= 2;
    }
    if (Math.abs(c - b) < 1e-10 * Math.abs(c)) return c;
    b = c;
    fb = fc;
  }
  return b;
}
