/** Independent estimates of every pixel, whose spread is its error; as many as a texel has numbers. */
export const REPLICATES = 4;

/** A pixel's mean luminance over the replicates, and the variance of that mean. */
interface PixelLuminance {
  readonly mean: number;
  readonly variance: number;
}

/** Which samples the replicates are sums of: from the one of this number on, and before that one. */
export interface SampleRange {
  readonly from: number;
  readonly to: number;
}

/** From the sums of luminance by replicate, REPLICATES numbers a pixel, at least one sample each. */
function pixelLuminance(byReplicate: Float32Array, pixel: number, range: SampleRange): PixelLuminance {
  const means = Array.from(
    { length: REPLICATES },
    (_, k) => byReplicate[REPLICATES * pixel + k]! / samplesOf(k, range),
  );
  const mean = means.reduce((sum, x) => sum + x, 0) / REPLICATES;
  const squares = means.reduce((sum, x) => sum + (x - mean) ** 2, 0);
  return { mean, variance: squares / (REPLICATES - 1) / REPLICATES };
}

/** Samples are dealt out to the replicates in turn. */
function samplesOf(replicate: number, { from, to }: SampleRange): number {
  const before = (sample: number) => Math.floor((sample + REPLICATES - 1 - replicate) / REPLICATES);
  return before(to) - before(from);
}

/** Samples of each replicate; all 0 where one of them has none yet. */
export function replicateSamples(range: SampleRange): number[] {
  const counts = Array.from({ length: REPLICATES }, (_, k) => samplesOf(k, range));
  return counts.includes(0) ? counts.map(() => 0) : counts;
}

/** Variance of the mean luminance of each pixel. */
export function luminanceVariances(byReplicate: Float32Array, range: SampleRange): Float32Array {
  return Float32Array.from(
    { length: byReplicate.length / REPLICATES },
    (_, pixel) => pixelLuminance(byReplicate, pixel, range).variance,
  );
}

/**
 * How noisy a frame is: the median, over pixels that are not black, of the standard error of a pixel's luminance against
 * the luminance itself; NaN before every replicate has a sample.
 */
export function medianRelativeError(byReplicate: Float32Array, range: SampleRange): number {
  if (range.to - range.from < REPLICATES) return Number.NaN;
  const errors: number[] = [];
  for (let pixel = 0; pixel < byReplicate.length / REPLICATES; pixel++) {
    const { mean, variance } = pixelLuminance(byReplicate, pixel, range);
    if (mean > 0) errors.push(Math.sqrt(variance) / mean);
  }
  errors.sort((a, b) => a - b);
  return errors[errors.length >> 1] ?? 0;
}
