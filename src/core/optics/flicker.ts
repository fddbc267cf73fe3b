/**
 * Light that pulses with the mains. Power follows the square of the voltage, so the light has two pulses a cycle,
 * p = 2·Hz. A shutter that is open for whole pulses, t = n/p, gets the same light whenever it opens; so does every frame
 * of a camera whose frames follow each other at p/n. Sources: the pulses are arithmetic; common practice in the trade.
 * Valid where the light repeats each half cycle. LED heads with a drive of their own pulse at that frequency instead.
 */
import { positive } from '../units/quantity.ts';
import { FULL_TURN_deg } from './shutter-angle.ts';

/** Pulses of light a second. */
export function lightPulses_Hz(mains_Hz: number): number {
  return 2 * positive(mains_Hz, 'mains frequency in Hz');
}

/** Every safe shutter angle at a frame rate, up to a full turn. */
export function safeAngles_deg(rate_fps: number, mains_Hz: number): number[] {
  const pulses = pulsesPerFrame(rate_fps, mains_Hz);
  // The rounding of 120/24 must not lose the full turn.
  const count = Math.floor(pulses * (1 + 1e-9));
  return Array.from({ length: count }, (_, i) => ((i + 1) * FULL_TURN_deg) / pulses);
}

/** The first `count` frame rates that are safe at every angle, fastest first. */
export function safeFrameRates_fps(mains_Hz: number, count: number): number[] {
  const p = lightPulses_Hz(mains_Hz);
  return Array.from({ length: count }, (_, i) => p / (i + 1));
}

/** A safe shutter beside another, and the light that it gives against it: stops, positive brighter. */
export interface SafeShutter {
  readonly shutter_s: number;
  readonly stops: number;
}

/** The nearest safe shutters: one not longer (null where the wanted one is shorter than a pulse), one not shorter. */
export function nearestSafeShutters(
  shutter_s: number,
  mains_Hz: number,
): { readonly shorter: SafeShutter | null; readonly longer: SafeShutter } {
  const p = lightPulses_Hz(mains_Hz);
  const pulses = positive(shutter_s, 'shutter time in seconds') * p;
  const safe = (n: number): SafeShutter => ({ shutter_s: n / p, stops: Math.log2(n / pulses) });
  const whole = Math.round(pulses);
  if (whole >= 1 && takesWholePulses(shutter_s, mains_Hz))
    return { shorter: safe(whole), longer: safe(whole) };
  const below = Math.floor(pulses);
  return { shorter: below >= 1 ? safe(below) : null, longer: safe(below + 1) };
}

/** Cameras round 1/50 s to 0.02 or to 1/49.95: nearer than this to whole pulses is whole. */
const WHOLE = 0.01;

export function takesWholePulses(shutter_s: number, mains_Hz: number): boolean {
  const pulses = positive(shutter_s, 'shutter time in seconds') * lightPulses_Hz(mains_Hz);
  return Math.round(pulses) >= 1 && Math.abs(pulses - Math.round(pulses)) <= WHOLE;
}

/** Whether frames follow each other in step with the pulses, so that what ripple there is stands still. */
export function framesInStep(rate_fps: number, mains_Hz: number): boolean {
  const pulses = pulsesPerFrame(rate_fps, mains_Hz);
  return Math.round(pulses) >= 1 && Math.abs(pulses - Math.round(pulses)) < 1e-6;
}

function pulsesPerFrame(rate_fps: number, mains_Hz: number): number {
  return lightPulses_Hz(mains_Hz) / positive(rate_fps, 'frame rate in frames per second');
}
