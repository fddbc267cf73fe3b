import type { Flat } from '../drawing/projection.ts';

/**
 * The convex hull of points (Andrew's monotone chain), always turning the same way, so that hulls laid over each other fill
 * as one. Points in one line leave its two ends.
 */
export function convexHull(points: readonly Flat[]): readonly Flat[] {
  const sorted = [...points].sort((a, b) => a[0] - b[0] || a[1] - b[1]);
  const chain = (ordered: readonly Flat[]): Flat[] => {
    const kept: Flat[] = [];
    for (const point of ordered) {
      while (kept.length > 1 && turn(kept.at(-2)!, kept.at(-1)!, point) <= FLATTEST_m2) kept.pop();
      kept.push(point);
    }
    kept.pop();
    return kept;
  };
  if (sorted.length < 2) return sorted;
  const hull = [...chain(sorted), ...chain(sorted.toReversed())];
  const [first, second] = [hull[0]!, hull[1]];
  return hull.length === 2 && second && first[0] === second[0] && first[1] === second[1] ? [first] : hull;
}

/** Twice the area of a triangle below which its corners are one line: a tenth of a millimetre over a metre. */
const FLATTEST_m2 = 1e-9;

function turn(a: Flat, b: Flat, c: Flat): number {
  return (b[0] - a[0]) * (c[1] - a[1]) - (b[1] - a[1]) * (c[0] - a[0]);
}
