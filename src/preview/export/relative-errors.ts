import { boxMean } from '../../core/frame/noise-filter.ts';
import { luminanceOfRgb } from '../../core/picture/linear-rgb.ts';

/** A pixel's own spread tells little; that of its neighbourhood, so many pixels to each side, tells what is usual there. */
const SPREAD_px = 2;

/** Light with its noise: linear RGB, three numbers a pixel, and the variance of each pixel's mean luminance. */
export interface NoisyLight {
  readonly width_px: number;
  readonly height_px: number;
  readonly rgb: Float32Array;
  readonly variances: Float32Array;
}

/** Standard error over luminance of every pixel that is brighter than `dark_cd_m2`: in darker ones noise does not count. */
export function relativeErrors(
  { width_px, height_px, rgb, variances }: NoisyLight,
  dark_cd_m2: number,
): number[] {
  const usual = boxMean(Float64Array.from(variances), width_px, height_px, SPREAD_px);
  const errors: number[] = [];
  for (const [pixel, variance] of usual.entries()) {
    const Y = luminanceOfRgb([rgb[3 * pixel]!, rgb[3 * pixel + 1]!, rgb[3 * pixel + 2]!]);
    if (Y > dark_cd_m2) errors.push(Math.sqrt(variance) / Y);
  }
  return errors;
}
