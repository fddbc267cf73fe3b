import { describe, expect, it } from 'vitest';
import { uvPrimeOf } from '../../../src/core/spectra/chromaticity.ts';
import { halfLastDigit } from '../../tolerances.ts';

describe('CIE 1976 u′, v′', () => {
  it.each([
    // published: CIE 15:2004 table T.3, from memory
    ['illuminant A', [109.85, 100, 35.585], 0.256, 0.5243],
    ['D65', [95.047, 100, 108.883], 0.1978, 0.4683],
  ] as const)('are the published ones of %s', (_, XYZ, uPrime, vPrime) => {
    const [u, v] = uvPrimeOf([...XYZ]);
    expect(Math.abs(u - uPrime)).toBeLessThan(halfLastDigit(4));
    expect(Math.abs(v - vPrime)).toBeLessThan(halfLastDigit(4));
  });
});
