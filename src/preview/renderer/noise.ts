/** Independent estimates of every pixel, whose spread is its error; as many as a texel has numbers. */
export const REPLICATES = 4;

/** Which samples the replicates are sums of: from the one of this number on, and before that one. */
export interface SampleRange {
  readonly from: number;
  readonly to: number;
}

/**
 * Of every `step`th pixel the mean luminance over its replicates and the variance of that mean, from the sums of luminance by
 * replicate, REPLICATES numbers a pixel, at least one sample each.
 */
function eachPixel(
  byReplicate: Float32Array,
  range: SampleRange,
  step: number,
  take: (mean: number, variance: number) => void,
): void {
  const counts = Array.from({ length: REPLICATES }, (_, k) => samplesOf(k, range));
  for (let at = 0; at < byReplicate.length; at += REPLICATES * step) {
    let mean = 0;
    for (let k = 0; k < REPLICATES; k++) mean += byReplicate[at + k]! / counts[k]! / REPLICATES;
    let squares = 0;
    for (let k = 0; k < REPLICATES; k++) squares += (byReplicate[at + k]! / counts[k]! - mean) ** 2;
    take(mean, squares / (REPLICATES - 1) / REPLICATES);
  }
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
  const variances = new Float32Array(byReplicate.length / REPLICATES);
  let pixel = 0;
  eachPixel(byReplicate, range, 1, (_, variance) => (variances[pixel++] = variance));
  return variances;
}

/** The median of so many is as good as that of a million, and nobody waits for it. */
const ENOUGH_PIXELS = 2 ** 15;

/**
 * How noisy a frame is: the median, over pixels that are not black, of the standard error of a pixel's luminance against
 * the luminance itself; of evenly spaced pixels where there are many. NaN before every replicate has a sample.
 */
export function medianRelativeError(byReplicate: Float32Array, range: SampleRange): number {
  if (range.to - range.from < REPLICATES) return Number.NaN;
  const pixels = byReplicate.length / REPLICATES;
  const step = Math.ceil(pixels / ENOUGH_PIXELS);
  const errors = new Float64Array(Math.ceil(pixels / step));
  let lit = 0;
  eachPixel(byReplicate, range, step, (mean, variance) => {
    if (mean > 0) errors[lit++] = Math.sqrt(variance) / mean;
  });
  return errors.subarray(0, lit).sort()[lit >> 1] ?? 0;
}
