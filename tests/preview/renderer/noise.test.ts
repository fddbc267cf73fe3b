import { describe, expect, it } from 'vitest';
import { luminanceVariances, medianRelativeError } from '../../../src/preview/renderer/noise.ts';

describe('noise of a frame', () => {
  it('is the standard error of the mean of four replicates', () => {
    // Eight samples, two a replicate: means 1, 2, 3, 4.
    const sums = Float32Array.of(2, 4, 6, 8);
    // derived: spread 5/3, a quarter of it for the mean of four; against the mean 2.5
    expect(luminanceVariances(sums, { from: 0, to: 8 })[0]).toBeCloseTo(5 / 12, 6);
    expect(medianRelativeError(sums, { from: 0, to: 8 })).toBeCloseTo(Math.sqrt(5 / 12) / 2.5, 6);
  });

  it('counts the samples that each replicate has', () => {
    // Five samples: the first replicate has two.
    expect(medianRelativeError(Float32Array.of(2, 1, 1, 1), { from: 0, to: 5 })).toBe(0);
  });

  it('counts from where the replicates were begun anew', () => {
    // derived: samples 2 to 6 are one of each replicate, as 0 to 4 are
    const sums = Float32Array.of(1, 2, 3, 4);
    expect(medianRelativeError(sums, { from: 2, to: 6 })).toBe(medianRelativeError(sums, { from: 0, to: 4 }));
  });

  it('takes the median over pixels that are not black', () => {
    const pixels = [
      [0, 0, 0, 0],
      [1, 1, 1, 1],
      [1, 2, 3, 4],
      [0, 0, 0, 8],
    ];
    // derived: 0, 0.258 and 1; the middle one is that of the test above
    expect(medianRelativeError(Float32Array.from(pixels.flat()), { from: 0, to: 4 })).toBeCloseTo(
      Math.sqrt(5 / 12) / 2.5,
      6,
    );
  });

  it('is unknown before every replicate has a sample, and none in the dark', () => {
    expect(medianRelativeError(Float32Array.of(1, 1, 1, 0), { from: 0, to: 3 })).toBeNaN();
    expect(medianRelativeError(new Float32Array(8), { from: 0, to: 4 })).toBe(0);
  });
});
