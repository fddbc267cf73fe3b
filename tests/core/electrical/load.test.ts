import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  apparentPower_VA,
  continuousLimit_A,
  current_A,
  headsThatFit,
  threePhaseCurrent_A,
} from '../../../src/core/electrical/load.ts';

describe('load', () => {
  it('draws a third of the single-phase current per line when spread over three phases to neutral', () => {
    // derived: S/(√3·V_line) = (S/3)/V_phase for V_line = √3·V_phase
    expect(threePhaseCurrent_A(9000, 230 * Math.sqrt(3))).toBeCloseTo(current_A(9000, 230) / 3, 12);
  });

  it('counts heads so that one more would be too many', () => {
    fc.assert(
      fc.property(
        fc.double({ min: 0.1, max: 20, noNaN: true }),
        fc.double({ min: 1, max: 100, noNaN: true }),
        (each, limit) => {
          const n = headsThatFit(each, limit);
          expect(n * each).toBeLessThanOrEqual(limit * (1 + 1e-8));
          expect((n + 1) * each).toBeGreaterThan(limit);
        },
      ),
      { seed: 16, numRuns: 200 },
    );
  });

  it('fits heads that meet the limit exactly, in spite of rounding', () => {
    // derived: 20 A × 0.8 = 16 A = 160 × 0.1 A
    expect(headsThatFit(0.1, continuousLimit_A(20))).toBe(160);
  });

  it('refuses impossible nameplates', () => {
    expect(() => apparentPower_VA(1000, 98)).toThrow('write 98 % as 0.98');
    expect(() => apparentPower_VA(1000, 0)).toThrow('power factor is 0');
    expect(() => apparentPower_VA(-1, 1)).toThrow('input power in watts is -1');
    expect(() => current_A(1000, 0)).toThrow('voltage is 0');
    expect(() => threePhaseCurrent_A(1000, Number.NaN)).toThrow('line voltage is NaN');
    expect(() => continuousLimit_A(0)).toThrow('breaker rating in amperes is 0');
    expect(() => headsThatFit(0, 16)).toThrow('current of one head in amperes is 0');
  });
});
