import { nonNegative, positive } from '../units/quantity.ts';

/**
 * How many stops a reading lies above the zero (below: negative): log₂(value/zero). Both in the same unit, lx or cd/m².
 * No light at all is −Infinity, which is the truth and not an error; callers print it as −∞ and leave it out of sums.
 * RangeError when the value is negative or the zero is not above zero.
 */
export function stopsAbove(value: number, zero: number): number {
  return Math.log2(nonNegative(value, 'reading') / positive(zero, "camera's zero"));
}

/** The factor of light that a number of stops is: 2^stops. −Infinity is no light. */
export function factorOfStops(stops: number): number {
  return 2 ** stops;
}
