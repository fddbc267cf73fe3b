import { hazeLoss_stops } from '../../core/haze/extinction.ts';
import { SKY_STOPS } from '../../core/meter/input-uncertainty.ts';
import type { Reading } from '../../core/meter/meter.ts';
import { quadraticForm } from '../../core/readings/cholesky.ts';
import type { Corrections } from './corrections.ts';

/**
 * How a reading depends on what the readings of the night are about: d log₂E/dx for each lamp's output and, last, for the
 * haze's extinction, x in stops. Lamps count by their share; haze takes by its law and gives by its glow.
 */
export function sensitivity(
  reading: Pick<Reading, 'illuminance_lx' | 'haze_lx' | 'lamps'>,
  extinction_per_m: number,
): number[] {
  const total = reading.illuminance_lx;
  const share = (lx: number) => (total > 0 ? lx / total : 0);
  const lamps = reading.lamps.map((lamp) => share(lamp.illuminance_lx));
  const loss = reading.lamps.reduce(
    (sum, lamp, i) => sum + lamps[i]! * hazeLoss_stops(extinction_per_m, lamp.hazed_m) * Math.LN2,
    0,
  );
  return [...lamps, share(reading.haze_lx) - loss];
}

/**
 * ± of a prediction after the night's readings: what lamps and haze bring shrinks in the proportion in which the readings
 * have shrunk it, their joint errors included; what the sky brings stays.
 */
export function inputAfterReadings_stops(
  reading: Reading,
  extinction_per_m: number,
  corrections: Pick<Corrections, 'planned' | 'covariance'>,
  holds: readonly boolean[],
): number {
  const total = reading.illuminance_lx;
  if (!(total > 0)) return 0;
  const sky = (reading.sky_lx / total) * SKY_STOPS;
  const lampsAndHaze = Math.sqrt(Math.max(0, reading.uncertainty.input_stops ** 2 - sky ** 2));
  const keeps = keptShare(sensitivity(reading, extinction_per_m), corrections, holds);
  return Math.hypot(lampsAndHaze * keeps, sky);
}

/** The share of the planned ± that is left, 0..1; corrections that do not hold leave all of theirs. */
export function keptShare(
  g: readonly number[],
  { planned, covariance }: Pick<Corrections, 'planned' | 'covariance'>,
  holds: readonly boolean[],
): number {
  const held = g.map((slope, i) => (holds[i] ? slope : 0));
  const open = g.map((slope, i) => (holds[i] ? 0 : slope));
  const untouched = quadraticForm(planned, open);
  const before = quadraticForm(planned, held) + untouched;
  if (!(before > 0)) return 1;
  return Math.min(1, Math.sqrt((quadraticForm(covariance, held) + untouched) / before));
}
