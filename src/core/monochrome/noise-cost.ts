/**
 * What a conversion costs in noise. Grey Y = Σw·C of channels with independent noise n has the noise √Σ(w·n)². Its cost is
 * that noise, as part of the grey, over the noise of plain luminance as part of luminance, in stops (log₂ of amplitudes):
 *
 *   cost = log₂( (√Σ(w·n)²/Y) / (√Σ(w_lum·n)²/Y_lum) )
 *
 * One stop costs as much as two stops of speed where noise is that of photons. For a conversion that is no plain sum, w is
 * its slope ∂Y/∂C at the colour. Noise of equal size in the three channels is taken where nothing is known of the sensor.
 */
import { type LinearRgb, LUMINANCE_WEIGHTS, luminanceOfRgb } from '../picture/linear-rgb.ts';
import type { MonochromeConversion } from './conversion.ts';

const EQUAL: LinearRgb = [1, 1, 1];
/** Step of the difference quotient, as part of the luminance. */
const STEP = 1e-5;

/**
 * Noise cost in stops at a colour (white-balanced linear RGB), for noise of these sizes in its channels. Infinity where the
 * conversion leaves no grey. RangeError unless the colour has luminance and some channel has noise.
 */
export function noiseCost_stops(
  conversion: MonochromeConversion,
  rgb: LinearRgb,
  channelNoise: LinearRgb = EQUAL,
): number {
  const luminance = luminanceOfRgb(rgb);
  const plain = Math.hypot(...LUMINANCE_WEIGHTS.map((w, c) => w * channelNoise[c]!));
  if (!(luminance > 0 && plain > 0)) {
    throw new RangeError(
      `noise ${channelNoise.join(', ')} at the colour ${rgb.join(', ')}; give a colour with luminance and noise above zero`,
    );
  }
  const grey = conversion(rgb);
  if (!(grey > 0)) return Number.POSITIVE_INFINITY;
  const h = STEP * luminance;
  const slopes = [0, 1, 2].map((c) => {
    const moved = (by: number) =>
      conversion(rgb.map((v, k) => (k === c ? v + by : v)) as unknown as LinearRgb);
    return (moved(h) - moved(-h)) / (2 * h);
  });
  const noise = Math.hypot(...slopes.map((w, c) => w * channelNoise[c]!));
  return Math.log2((noise * luminance) / (plain * grey));
}
