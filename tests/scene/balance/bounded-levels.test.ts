import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { boundedLevels } from '../../../src/scene/balance/bounded-levels.ts';

const SEED = 20_270_304;

function loss(
  rows: readonly (readonly number[])[],
  targets: readonly number[],
  x: readonly number[],
): number {
  return rows.reduce(
    (sum, row, i) => sum + (row.reduce((s, a, l) => s + a * x[l]!, 0) - targets[i]!) ** 2,
    0,
  );
}

function gradient(
  rows: readonly (readonly number[])[],
  targets: readonly number[],
  x: readonly number[],
): number[] {
  const off = rows.map((row, i) => row.reduce((s, a, l) => s + a * x[l]!, 0) - targets[i]!);
  return x.map((_, l) => rows.reduce((sum, row, i) => sum + row[l]! * off[i]!, 0));
}

/** As many wants as lamps or more, each lamp mostly for one of them, as on a set. */
const problem = fc.integer({ min: 1, max: 4 }).chain((n) =>
  fc.record({
    rows: fc.array(fc.array(fc.double({ min: 0, max: 0.5, noNaN: true }), { minLength: n, maxLength: n }), {
      minLength: n,
      maxLength: n + 3,
    }),
    own: fc.array(fc.double({ min: 0.3, max: 8, noNaN: true }), { minLength: n, maxLength: n }),
    present: fc.array(fc.double({ min: 0.05, max: 1, noNaN: true }), { minLength: n, maxLength: n }),
  }),
);

describe('levels within their limits', () => {
  it('fulfil the conditions of a least-squares optimum (Karush, Kuhn, Tucker) on 300 seeded cases', () => {
    let worst = 0;
    fc.assert(
      fc.property(problem, ({ rows, own, present }) => {
        const A = rows.map((row, i) => row.map((a, l) => (i === l ? a + own[l]! : a)));
        const b = A.map(() => 1);
        const x = boundedLevels(A, b, present);
        const g = gradient(A, b, x);
        for (const [l, level] of x.entries()) {
          expect(level).toBeGreaterThanOrEqual(0);
          expect(level).toBeLessThanOrEqual(1);
          // derived: inside, no slope; at the bottom, none downhill; at the top, none uphill. In units of the wants.
          const slope =
            level < 1e-6 ? Math.max(0, -g[l]!) : level > 1 - 1e-6 ? Math.max(0, g[l]!) : Math.abs(g[l]!);
          worst = Math.max(worst, slope);
        }
      }),
      { seed: SEED, numRuns: 300 },
    );
    expect(worst).toBeLessThan(2e-4);
  });

  it('are no worse than any of a fine grid of levels, by brute force on 60 seeded pairs of lamps', () => {
    const pair = fc.tuple(
      ...Array.from({ length: 6 }, () => fc.double({ min: 0.02, max: 4, noNaN: true })),
      fc.double({ min: 0.1, max: 1, noNaN: true }),
    );
    fc.assert(
      fc.property(pair, ([a, b, c, d, e, f, present]) => {
        const A = [
          [a!, b!],
          [c!, d!],
          [e!, f!],
        ];
        const x = boundedLevels(A, [1, 1, 1], [present!, present!]);
        let least = Number.POSITIVE_INFINITY;
        for (let i = 0; i <= 100; i++)
          for (let k = 0; k <= 100; k++) least = Math.min(least, loss(A, [1, 1, 1], [i / 100, k / 100]));
        expect(loss(A, [1, 1, 1], x)).toBeLessThanOrEqual(least + 1e-6);
      }),
      { seed: SEED, numRuns: 60 },
    );
  });

  it('change no more than is wanted: of one total over two lamps, each by the square of its share', () => {
    // derived: least Σ(Δx/x)² with Σ a·Δx = Δ, at x = 0.5: Δx_l ∝ a_l; a = (3, 1), total 2 → 1 takes Δx = (−0.3, −0.1).
    const [one, two] = boundedLevels([[3, 1]], [1], [0.5, 0.5]);
    expect(one).toBeCloseTo(0.2, 5);
    expect(two).toBeCloseTo(0.4, 5);
  });

  it('leave alone what is right already, and lamps that nothing is wanted of', () => {
    const levels = boundedLevels([[2, 0, 1]], [1.3], [0.4, 0.7, 0.5]);
    for (const [l, level] of [0.4, 0.7, 0.5].entries()) expect(levels[l]).toBeCloseTo(level, 6);
  });

  it('are all the way up where that is not enough, and none where nothing is wanted', () => {
    expect(boundedLevels([[0.25]], [1], [0.5])[0]).toBeCloseTo(1, 9);
    expect(boundedLevels([], [], [])).toEqual([]);
  });
});
