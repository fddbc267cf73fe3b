/** Gauss–Legendre, 8 points on [−1, 1] (Abramowitz & Stegun, table 25.4): half of them, the rest by symmetry. */
const NODES = [0.1834346424956498, 0.525532409916329, 0.7966664774136267, 0.9602898564975363] as const;
const WEIGHTS = [0.362683783378362, 0.3137066458778873, 0.2223810344533745, 0.1012285362903763] as const;

const MAX_HALVINGS = 48;

/** When an interval is fine enough: its halves agree with it to this share of themselves, or to this much. */
export interface Agreement {
  readonly relative: number;
  readonly absolute: number;
}

/**
 * ∫ f over [from, to] of a function that is nowhere negative, so that relative errors of the parts bound that of the
 * whole. An interval is halved until its halves agree with it. Put known kinks at the ends: a feature far narrower
 * than the interval can hide between the points.
 */
export function adaptiveIntegral(
  f: (x: number) => number,
  from: number,
  to: number,
  agreement: Agreement,
): number {
  return refined(f, from, to, gauss(f, from, to), agreement, MAX_HALVINGS);
}

function refined(
  f: (x: number) => number,
  from: number,
  to: number,
  whole: number,
  agreement: Agreement,
  halvings: number,
): number {
  const middle = (from + to) / 2;
  const left = gauss(f, from, middle);
  const right = gauss(f, middle, to);
  const sum = left + right;
  const enough = Math.max(agreement.relative * sum, agreement.absolute);
  if (halvings === 0 || Math.abs(sum - whole) <= enough) return sum;
  return (
    refined(f, from, middle, left, agreement, halvings - 1) +
    refined(f, middle, to, right, agreement, halvings - 1)
  );
}

function gauss(f: (x: number) => number, from: number, to: number): number {
  const centre = (from + to) / 2;
  const half = (to - from) / 2;
  let sum = 0;
  for (let i = 0; i < NODES.length; i++) {
    const x = half * NODES[i]!;
    sum += WEIGHTS[i]! * (f(centre - x) + f(centre + x));
  }
  return sum * half;
}
