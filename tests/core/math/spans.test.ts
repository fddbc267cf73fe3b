import { describe, expect, it } from 'vitest';
import { spansWhere } from '../../../src/core/math/spans.ts';

describe('spans in which something holds', () => {
  it('have edges found far finer than the step', () => {
    // derived: sin x > ½ between π/6 and 5π/6, and again a turn on
    const spans = spansWhere((x) => Math.sin(x) > 0.5, 0, 10, 0.1);
    expect(spans).toHaveLength(2);
    const wanted = [Math.PI / 6, (5 * Math.PI) / 6, (13 * Math.PI) / 6, (17 * Math.PI) / 6];
    const got = spans.flatMap(({ from, to }) => [from, to]);
    for (const [i, edge] of got.entries()) expect(Math.abs(edge - wanted[i]!)).toBeLessThan(0.1 / 4000);
  });

  it('reach to the ends, or are none', () => {
    expect(spansWhere(() => true, 2, 5, 1)).toEqual([{ from: 2, to: 5 }]);
    expect(spansWhere(() => false, 2, 5, 1)).toEqual([]);
    const [late] = spansWhere((x) => x > 4, 2, 5, 0.5);
    expect(late!.to).toBe(5);
    expect(late!.from).toBeCloseTo(4, 3);
  });
});
