import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { kelvinFromMired, miredFromKelvin, miredShift } from '../../../src/core/spectra/mired.ts';
import { IDENTITY } from '../../tolerances.ts';

describe('mired', () => {
  it('returns the kelvin it came from', () => {
    fc.assert(
      fc.property(fc.double({ min: 1000, max: 1e6, noNaN: true }), (T) => {
        expect(Math.abs(kelvinFromMired(miredFromKelvin(T)) / T - 1)).toBeLessThan(IDENTITY);
      }),
      { seed: 6, numRuns: 100 },
    );
  });

  it('adds: a shift out and the shift back are opposite, and shifts chain', () => {
    expect(miredShift(3200, 5600) + miredShift(5600, 3200)).toBeCloseTo(0, 12);
    expect(miredShift(3200, 4300) + miredShift(4300, 5600)).toBeCloseTo(miredShift(3200, 5600), 10);
  });
});
