import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { factorOfStops, stopsAbove } from '../../../src/core/exposure/stops.ts';

describe('stops', () => {
  it('counts doublings', () => {
    // derived: log₂ of 1, 2, 8, ¼
    expect([250, 500, 2000, 62.5].map((E) => stopsAbove(E, 250))).toEqual([0, 1, 3, -2]);
  });

  it('is −Infinity for no light, and no light is what −Infinity stops is', () => {
    expect(stopsAbove(0, 250)).toBe(Number.NEGATIVE_INFINITY);
    expect(factorOfStops(Number.NEGATIVE_INFINITY)).toBe(0);
  });

  it('returns from a factor', () => {
    fc.assert(
      fc.property(fc.double({ min: -30, max: 30, noNaN: true }), (stops) => {
        expect(stopsAbove(250 * factorOfStops(stops), 250)).toBeCloseTo(stops, 11);
      }),
      { seed: 2, numRuns: 100 },
    );
  });

  it.each([
    [-1, 250, 'reading is -1'],
    [Number.NaN, 250, 'reading is NaN'],
    [100, 0, "camera's zero is 0"],
  ])('refuses %d over %d', (value, zero, message) => {
    expect(() => stopsAbove(value, zero)).toThrow(message);
  });
});
