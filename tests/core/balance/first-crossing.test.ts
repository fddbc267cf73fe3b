import { describe, expect, it } from 'vitest';
import { firstCrossing } from '../../../src/core/balance/first-crossing.ts';

describe('the smallest change that does it', () => {
  it('is found to a ten-thousandth of the way', () => {
    // derived: 1/(1 − s)² = 2 at s = 1 − 1/√2 = 0.2929.
    const s = firstCrossing((t) => 1 / (1 - t * 0.9) ** 2, 2, 24)!;
    expect(Math.abs(s * 0.9 - (1 - Math.SQRT1_2))).toBeLessThan(1e-4);
  });

  it('is the first of several, behind a shadow too', () => {
    const f = (s: number) => (s > 0.3 && s < 0.5 ? 0 : 4 * s);
    expect(firstCrossing(f, 1, 24)).toBeCloseTo(0.25, 3);
    expect(firstCrossing(f, 1.9, 24)).toBeCloseTo(0.5, 2);
  });

  it('is none where none reaches it', () => {
    expect(firstCrossing((s) => s, 2, 24)).toBeNull();
    expect(firstCrossing((s) => s, 1, 24)).toBeCloseTo(1, 3);
  });
});
