import { describe, expect, it } from 'vitest';
import { gone_m, positionAt_m, timesOf } from '../../../src/scene/moves/position-at.ts';
import type { Path } from '../../../src/scene/schema/path.ts';

/** 3-4-5 triangle: 5 m in 2 s, then 2 m straight up in 4 s. */
const MOVE: Path = {
  id: 'move',
  of: 'a',
  points: [
    { t_s: 1, position_m: [0, 1, 0] },
    { t_s: 3, position_m: [3, 1, 4] },
    { t_s: 7, position_m: [3, 3, 4] },
  ],
};

describe('a move', () => {
  // Derived: shares of the legs by hand.
  it.each([
    [0, [0, 1, 0], 0],
    [1, [0, 1, 0], 0],
    [2, [1.5, 1, 2], 2.5],
    [3, [3, 1, 4], 5],
    [4, [3, 1.5, 4], 5.5],
    [7, [3, 3, 4], 7],
    [99, [3, 3, 4], 7],
  ])('at %d s', (t_s, position, gone) => {
    for (const [i, v] of positionAt_m(MOVE, t_s).entries()) expect(v).toBeCloseTo(position[i]!, 12);
    expect(gone_m(MOVE, t_s)).toBeCloseTo(gone, 12);
  });

  it('has its times', () => {
    expect(timesOf(MOVE)).toEqual({ from_s: 1, to_s: 7 });
  });
});
