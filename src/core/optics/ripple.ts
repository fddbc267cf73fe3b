/**
 * What a shutter leaves of a lamp's ripple. Light 1 + m·cos(2π·p·τ) through a shutter open for t varies from frame to frame
 * by ± m·|sinc(p·t)|, sinc x = sin(πx)/(πx): a moving average. Source: the box filter, derived. Valid for any t; the frame
 * may open at any moment of the cycle. Light with sharper pulses has harmonics, which the shutter damps more.
 */
import { nonNegative, positive } from '../units/quantity.ts';

/** From the darkest to the brightest frame. */
export interface Ripple {
  /** Half of what light varies by, over its mean. */
  readonly amplitude: number;
  readonly peakToPeak_stops: number;
}

export function cosineRipple(modulation: number, pulses_Hz: number, shutter_s: number): Ripple {
  const m = nonNegative(modulation, 'modulation');
  const x = positive(pulses_Hz, 'pulses of light a second') * positive(shutter_s, 'shutter time in seconds');
  const amplitude = m * Math.abs(Math.sin(Math.PI * x) / (Math.PI * x));
  return { amplitude, peakToPeak_stops: Math.log2((1 + amplitude) / (1 - amplitude)) };
}

/**
 * How deep lamps pulse straight on the mains: (brightest − darkest)/(brightest + darkest). Common practice, no source;
 * lamps of one kind differ by half of it and more. Tungsten keeps its heat (small lamps least), discharge is taken on a
 * magnetic ballast, fluorescent on a magnetic ballast, LED behind the plainest of supplies.
 */
export const TYPICAL_MODULATION = {
  tungsten: 0.1,
  discharge: 0.85,
  fluorescent: 0.35,
  led: 1,
} as const;
