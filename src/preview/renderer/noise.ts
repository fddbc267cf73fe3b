/** Independent estimates of every pixel, whose spread is its error; as many as a texel has numbers. */
export const REPLICATES = 4;

/**
 * How noisy a frame is: the median, over pixels that are not black, of the standard error of a pixel's luminance against
 * the luminance itself. From the sums of luminance by replicate, REPLICATES numbers a pixel, after so many samples in all;
 * NaN before every replicate has one.
 */
export function medianRelativeError(byReplicate: Float32Array, samples: number): number {
  if (samples < REPLICATES) return Number.NaN;
  const errors: number[] = [];
  for (let at = 0; at < byReplicate.length; at += REPLICATES) {
    const means = Array.from({ length: REPLICATES }, (_, k) => byReplicate[at + k]! / samplesOf(k, samples));
    const mean = means.reduce((sum, x) => sum + x, 0) / REPLICATES;
    if (!(mean > 0)) continue;
    const squares = means.reduce((sum, x) => sum + (x - mean) ** 2, 0);
    errors.push(Math.sqrt(squares / (REPLICATES - 1) / REPLICATES) / mean);
  }
  if (errors.length === 0) return 0;
  errors.sort((a, b) => a - b);
  return errors[errors.length >> 1]!;
}

/** Samples are dealt out to the replicates in turn. */
function samplesOf(replicate: number, samples: number): number {
  return Math.floor((samples + REPLICATES - 1 - replicate) / REPLICATES);
}
