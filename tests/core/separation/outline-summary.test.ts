import { describe, expect, it } from 'vitest';
import { outlineSummary, shareOver } from '../../../src/core/separation/outline-summary.ts';

describe('summary of an outline', () => {
  it('counts what stands out, either way', () => {
    // derived by counting: 1.2, −1.5 and −1 of five are a stop or more; sizes 0, 0.9, 1, 1.2, 1.5; one is lighter and 0.9 too
    const summary = outlineSummary([1.2, -1.5, 0.9, -1, 0]);
    expect(summary.share_over_1_stop).toBeCloseTo(3 / 5, 12);
    expect(summary.median_stops).toBe(1);
    expect(summary.lighter_share).toBeCloseTo(2 / 5, 12);
  });

  it('takes the mean of the middle two of an even number', () => {
    expect(outlineSummary([1, -2, 3, -5]).median_stops).toBeCloseTo(2.5, 12);
    expect(shareOver([1, -2, 3, -5], 2.5)).toBe(0.5);
  });

  it('refuses an outline of nothing', () => {
    expect(() => outlineSummary([])).toThrow(RangeError);
  });
});
