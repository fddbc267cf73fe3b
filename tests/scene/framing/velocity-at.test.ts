import { describe, expect, it } from 'vitest';
import { topSpeed_m_per_s, velocityAt_m_per_s } from '../../../src/scene/framing/velocity-at.ts';

describe('velocity along a path', () => {
  const path = {
    id: 'p',
    of: 'walker',
    points: [
      { t_s: 0, position_m: [0, 0, 0] as [number, number, number] },
      { t_s: 2, position_m: [4, 0, 0] as [number, number, number] },
      { t_s: 3, position_m: [4, 0, 1] as [number, number, number] },
    ],
  };

  it('is that of the leg, the whole of it at both ends', () => {
    // derived: 4 m in 2 s, then 1 m in 1 s
    for (const t of [0, 1]) expect(velocityAt_m_per_s(path, t)[0]).toBeCloseTo(2, 9);
    for (const t of [2.5, 3]) expect(velocityAt_m_per_s(path, t)[2]).toBeCloseTo(1, 9);
    expect(velocityAt_m_per_s(path, 2)).toEqual([expect.closeTo(1, 9), 0, expect.closeTo(0.5, 9)]);
    expect(velocityAt_m_per_s(path, 9)).toEqual([0, 0, 0]);
    expect(topSpeed_m_per_s(path)).toBe(2);
  });
});
