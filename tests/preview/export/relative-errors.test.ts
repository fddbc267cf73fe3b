import { describe, expect, it } from 'vitest';
import { relativeErrors } from '../../../src/preview/export/relative-errors.ts';

const grey = (luminances: readonly number[]) => Float32Array.from(luminances.flatMap((Y) => [Y, Y, Y]));

describe('the relative errors of a picture', () => {
  it('are standard error over luminance', () => {
    const light = {
      width_px: 3,
      height_px: 2,
      rgb: grey([1, 2, 4, 8, 16, 32]),
      variances: new Float32Array(6).fill(0.25),
    };
    // derived: √0.25 over each luminance
    expect(relativeErrors(light, 0).map((error) => Number(error.toFixed(6)))).toEqual([
      0.5, 0.25, 0.125, 0.0625, 0.03125, 0.015625,
    ]);
  });

  it('leave out what is dark, and take the spread of the neighbourhood for the pixel', () => {
    const rgb = grey([1, 1, 1, 0.1, 1, 1, 1]);
    const variances = Float32Array.from([0, 0, 0, 5, 0, 0, 0]);
    // derived: two pixels to each side: the fourth is in the mean of the second to the sixth
    const errors = relativeErrors({ width_px: 7, height_px: 1, rgb, variances }, 0.1001);
    expect(errors.map((error) => error ** 2)).toEqual(
      [0, 5 / 4, 1, 1, 5 / 4, 0].map((variance) => expect.closeTo(variance, 6)),
    );
  });
});
