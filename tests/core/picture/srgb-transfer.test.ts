import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { srgbDecoded, srgbEncoded } from '../../../src/core/picture/srgb-transfer.ts';
import { halfLastDigit } from '../../tolerances.ts';

describe('the sRGB transfer function', () => {
  it('has the values of the standard', () => {
    // derived: IEC 61966-2-1 by hand: 1.055·0.18^(1/2.4) − 0.055 = 0.46136; 12.92·0.002; ((0.5 + 0.055)/1.055)^2.4 = 0.21404
    expect(Math.abs(srgbEncoded(0.18) - 0.4614)).toBeLessThan(halfLastDigit(4));
    expect(srgbEncoded(0.002)).toBeCloseTo(0.02584, 12);
    expect(Math.abs(srgbDecoded(0.5) - 0.21404)).toBeLessThan(halfLastDigit(5));
    expect([srgbEncoded(0), srgbDecoded(0)]).toEqual([0, 0]);
    expect(srgbEncoded(1)).toBeCloseTo(1, 15);
    expect(srgbDecoded(1)).toBeCloseTo(1, 15);
  });

  it('joins its two branches as the standard does', () => {
    // published: IEC 61966-2-1 gives 0.0031308 and 0.04045 for the same point
    expect(Math.abs(srgbEncoded(0.0031308) - 0.04045)).toBeLessThan(halfLastDigit(5));
    expect(Math.abs(srgbEncoded(0.0031308) - srgbEncoded(0.00313081))).toBeLessThan(2e-7);
  });

  it('is undone by its inverse, and takes the nearer end outside 0 to 1', () => {
    fc.assert(
      fc.property(fc.double({ min: 0, max: 1, noNaN: true }), (linear) => {
        expect(Math.abs(srgbDecoded(srgbEncoded(linear)) - linear)).toBeLessThan(1e-7);
      }),
      { seed: 61966, numRuns: 300 },
    );
    expect([srgbEncoded(-1), srgbEncoded(1e9)]).toEqual([srgbEncoded(0), srgbEncoded(1)]);
    expect([srgbDecoded(-1), srgbDecoded(2)]).toEqual([srgbDecoded(0), srgbDecoded(1)]);
  });
});
