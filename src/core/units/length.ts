import { positive } from './quantity.ts';

/** The international foot, exact by definition. */
export const METRES_PER_FOOT = 0.3048;

const INCHES_PER_FOOT = 12;
const METRES_PER_INCH = METRES_PER_FOOT / INCHES_PER_FOOT;

/** Whole feet and the inches over; both carry the sign of the length. */
export interface FeetAndInches {
  readonly feet: number;
  readonly inches: number;
}

export function metresFromFeet(length_ft: number): number {
  return length_ft * METRES_PER_FOOT;
}

export function feetFromMetres(length_m: number): number {
  return length_m / METRES_PER_FOOT;
}

export function metresFromFeetAndInches({ feet, inches }: FeetAndInches): number {
  return feet * METRES_PER_FOOT + inches * METRES_PER_INCH;
}

/**
 * A length as a tape measure reads it, to the nearest `step_in` inches (default ½). Rounding comes before splitting,
 * so 0.3047 m is 1 ft 0 in and never 0 ft 12 in. `step_in` must divide a foot evenly for that to hold.
 */
export function feetAndInchesFromMetres(length_m: number, step_in = 0.5): FeetAndInches {
  const step = positive(step_in, 'inch step');
  const steps = Math.round(Math.abs(length_m) / METRES_PER_INCH / step);
  const stepsPerFoot = INCHES_PER_FOOT / step;
  const feet = Math.floor(steps / stepsPerFoot);
  const inches = (steps - feet * stepsPerFoot) * step;
  return length_m < 0 ? { feet: 0 - feet, inches: 0 - inches } : { feet, inches };
}
