/**
 * Channel mix: Y = w_R·R + w_G·G + w_B·B in linear light, Σw = 1, the tone curve after. A weight may be negative, as in
 * every channel mixer: it darkens that colour beyond taking it out, and costs noise.
 */
import type { LinearRgb } from '../picture/linear-rgb.ts';
import type { MonochromeConversion } from './conversion.ts';

/** How far the sum of weights typed with a few decimals may be off 1. */
export const SUM_TOLERANCE = 0.005;

/** The mix of these weights, their sum brought to exactly 1. RangeError unless they are finite and add up to 1 ± 0.005. */
export function channelMix(weights: LinearRgb): MonochromeConversion {
  const [wR, wG, wB] = unitWeights(weights);
  return ([red, green, blue]) => wR * red + wG * green + wB * blue;
}

/** The weights with their sum brought to exactly 1. RangeError as above. */
export function unitWeights(weights: LinearRgb): LinearRgb {
  const sum = weights[0] + weights[1] + weights[2];
  if (!(Math.abs(sum - 1) <= SUM_TOLERANCE + 1e-9)) {
    throw new RangeError(
      `weights ${weights.join(', ')} add up to ${Number(sum.toFixed(4))}; they must add up to 1, so that a neutral keeps its brightness`,
    );
  }
  return [weights[0] / sum, weights[1] / sum, weights[2] / sum];
}
