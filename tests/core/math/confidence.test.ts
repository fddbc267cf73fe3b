import { describe, expect, it } from 'vitest';
import { confidence95, studentT95 } from '../../../src/core/math/confidence.ts';

describe('the 95 % interval of a mean', () => {
  it("has Student's quantiles", () => {
    // published: two-sided 95 % t of the usual tables (Abramowitz & Stegun table 26.10), three decimals, from memory
    for (const [nu, t] of [
      [5, 2.571],
      [7, 2.365],
      [10, 2.228],
      [15, 2.131],
      [30, 2.042],
      [120, 1.98],
    ] as const) {
      expect(Math.abs(studentT95(nu) / t - 1), `ν = ${nu}`).toBeLessThan(0.004);
    }
  });

  it('is t·s/√n', () => {
    // derived: 2, 4, 4, 4, 5, 5, 7, 9: mean 5, squares 32, s² = 32/7
    const wanted = 2.365 * Math.sqrt(32 / 7 / 8);
    expect(confidence95([2, 4, 4, 4, 5, 5, 7, 9])).toBeCloseTo(wanted, 2);
  });

  it('is unbounded for a single estimate', () => {
    expect(confidence95([1])).toBe(Number.POSITIVE_INFINITY);
  });
});
