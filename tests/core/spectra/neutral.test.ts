import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { neutralTransmission } from '../../../src/core/spectra/neutral.ts';

describe('a neutral filter', () => {
  it('passes a half, a quarter, an eighth for 1, 2, 3 stops', () => {
    // derived: 2^−stops
    expect([0, 1, 2, 3].map(neutralTransmission)).toEqual([1, 0.5, 0.25, 0.125]);
  });

  it('adds up: two filters in a row cost the sum of their stops', () => {
    fc.assert(
      fc.property(
        fc.double({ min: 0, max: 10, noNaN: true }),
        fc.double({ min: 0, max: 10, noNaN: true }),
        (a, b) => {
          expect((neutralTransmission(a) * neutralTransmission(b)) / neutralTransmission(a + b)).toBeCloseTo(
            1,
            12,
          );
        },
      ),
      { seed: 9, numRuns: 100 },
    );
  });

  it.each([-1, Number.NaN])('refuses %d stops', (stops) => {
    expect(() => neutralTransmission(stops)).toThrow(/loss of a neutral filter/);
  });
});
