import { fcnnlsVector } from 'ml-fcnnls';

/**
 * Levels x with 0 ≤ x ≤ 1 that bring Σ_l a_il·x_l nearest to b_i in the least-squares sense.
 *
 * Non-negative least squares (Lawson & Hanson 1974; Van Benthem & Keenan 2004) knows only the lower limit; the upper one is
 * a slack variable: x_l + s_l = 1, s_l ≥ 0, as a row heavy enough to hold to 1e-4, within
 * which a level is at its limit. Where the wants leave the choice open, the
 * levels stay as near to the present ones as they can, in proportion to them: a light pull toward the present, renewed from
 * each solution (the proximal point method), so that it decides nothing that the wants decide.
 */
export function boundedLevels(
  rows: readonly (readonly number[])[],
  targets: readonly number[],
  present: readonly number[],
): number[] {
  const n = present.length;
  if (n === 0) return [];
  const holds = (l: number, weight: number, slack: number) => {
    const row = new Array<number>(2 * n).fill(0);
    row[l] = weight;
    row[n + l] = slack;
    return row;
  };
  const pull = present.map((level) => PULL / Math.max(level, LEAST_LEVEL));
  const X = [
    ...rows.map((row) => [...row, ...new Array<number>(n).fill(0)]),
    ...pull.map((weight, l) => holds(l, weight, 0)),
    ...present.map((_, l) => holds(l, HOLD, HOLD)),
  ];
  let levels = present.map(within);
  for (let round = 0; round < MOST_ROUNDS; round++) {
    const y = [...targets, ...pull.map((weight, l) => weight * levels[l]!), ...present.map(() => HOLD)];
    const { K } = fcnnlsVector(X, y, { gradientTolerance: 1e-9, maxIterations: 60 * n });
    const next = present.map((_, l) => within(K.get(l, 0)));
    const moved = Math.max(...next.map((level, l) => Math.abs(level - levels[l]!)));
    levels = next;
    if (moved < 1e-6) break;
  }
  return levels;
}

const PULL = 0.01;
/** A lamp that is at nothing may come up as if it were here. */
const LEAST_LEVEL = 0.1;
const HOLD = 300;
const MOST_ROUNDS = 40;

/** Finer than any dimmer. */
const AT_LIMIT = 1e-4;

function within(level: number): number {
  if (level > 1 - AT_LIMIT) return 1;
  return level < AT_LIMIT ? 0 : level;
}
