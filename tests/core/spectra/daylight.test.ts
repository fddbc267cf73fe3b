import { describe, expect, it } from 'vitest';
import { daylightSpectrum, daylightXy } from '../../../src/core/spectra/daylight.ts';
import { publishedTables } from './published-tables.ts';

describe('daylight', () => {
  it('is 100 at 560 nm at every temperature', () => {
    // published: CIE 15, S0(560) = 100, S1(560) = S2(560) = 0
    for (const cct_K of [4000, 5600, 6504, 25000]) {
      expect(daylightSpectrum(cct_K, publishedTables.daylight)[36]).toBeCloseTo(100, 9);
    }
  });

  it('joins its two polynomials at 7000 K', () => {
    // derived: both fits of x_D at 7000 K differ by less than they round to (five decimals)
    expect(Math.abs(daylightXy(7000).x - daylightXy(7000.0001).x)).toBeLessThan(1e-5);
  });

  it.each([3999, 25001, Number.NaN, -1])('refuses %d K and says the range', (cct_K) => {
    expect(() => daylightXy(cct_K)).toThrow(RangeError);
    expect(() => daylightXy(cct_K)).toThrow(/4000 to 25000 K/);
  });
});
