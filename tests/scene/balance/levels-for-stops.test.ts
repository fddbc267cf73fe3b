import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { levelsForStops, type WantedLight } from '../../../src/scene/balance/levels-for-stops.ts';

const SEED = 20_270_305;

function offStops2(wants: readonly WantedLight[], levels: readonly number[]): number {
  return wants.reduce((sum, { full_lx, other_lx, wanted_lx }) => {
    const lx = full_lx.reduce((s, f, l) => s + f * levels[l]!, other_lx);
    return sum + Math.log2(Math.max(lx / wanted_lx, 2 ** -10)) ** 2;
  }, 0);
}

describe('levels for wanted stops', () => {
  it('meet wants that can be met, whatever is there already', () => {
    // derived: 100·x + 20 = 70 → x = 0.5; 40·y = 10 → y = 0.25.
    const wants = [
      { full_lx: [100, 0], other_lx: 20, wanted_lx: 70 },
      { full_lx: [0, 40], other_lx: 0, wanted_lx: 10 },
    ];
    const [x, y] = levelsForStops(wants, [1, 1]);
    expect(x).toBeCloseTo(0.5, 6);
    expect(y).toBeCloseTo(0.25, 6);
  });

  it('compromise evenly in stops: wants 3 stops apart of one lamp end 1.5 over and 1.5 under', () => {
    // derived: least (s − 0)² + (s − 3)² is at s = 1.5.
    const wants = [
      { full_lx: [800], other_lx: 0, wanted_lx: 50 },
      { full_lx: [800], other_lx: 0, wanted_lx: 400 },
    ];
    const [level] = levelsForStops(wants, [1]);
    expect(Math.log2((800 * level!) / 50)).toBeCloseTo(1.5, 3);
  });

  it('are as near as brute force finds, on 60 seeded pairs of lamps with three wants each', () => {
    const lx = fc.double({ min: 1, max: 400, noNaN: true });
    const want = fc.record({
      full_lx: fc.tuple(lx, lx),
      other_lx: fc.double({ min: 0.1, max: 5, noNaN: true }),
      wanted_lx: fc.double({ min: 10, max: 500, noNaN: true }),
    });
    let worst = 0;
    fc.assert(
      fc.property(fc.tuple(want, want, want), (wants) => {
        const levels = levelsForStops(wants, [0.5, 0.5]);
        let least = Number.POSITIVE_INFINITY;
        for (let i = 0; i <= 200; i++)
          for (let k = 0; k <= 200; k++) least = Math.min(least, offStops2(wants, [i / 200, k / 200]));
        for (const level of levels) {
          expect(level).toBeGreaterThanOrEqual(0);
          expect(level).toBeLessThanOrEqual(1);
        }
        worst = Math.max(worst, Math.sqrt(offStops2(wants, levels)) - Math.sqrt(least));
      }),
      { seed: SEED, numRuns: 60 },
    );
    // In stops, root of the sum of squares.
    expect(worst).toBeLessThan(0.02);
  });
});
