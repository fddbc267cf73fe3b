/**
 * What lamps draw: S = P/PF, I = S/V, three-phase I = S/(√3·V).
 *
 * For planning only. Local codes and a qualified person decide what may be connected to what.
 */
import { positive } from '../units/quantity.ts';

/**
 * A quick breaker (type B) may open at once from three times its rating on (IEC 60898-1, from memory; types C and D from five
 * and ten times). Inrush above that can trip it although the running current is small.
 */
export const QUICK_TRIP_MULTIPLE = 3;

/** Loads that run for three hours or more may use this much of a breaker (NFPA 70, Art. 100 and 210.20(A)). */
export const CONTINUOUS_FRACTION = 0.8;

/**
 * Apparent power of a head from its input power (ballast included) and power factor.
 * RangeError unless the power is above zero and the power factor above 0 and at most 1.
 * Planning only: local codes and a qualified person rule.
 */
export function apparentPower_VA(input_W: number, powerFactor: number): number {
  const pf = positive(powerFactor, 'power factor');
  if (pf > 1) throw new RangeError(`power factor is ${pf}; it is at most 1 (write 98 % as 0.98)`);
  return positive(input_W, 'input power in watts') / pf;
}

/** Single-phase current in amperes. Planning only: local codes and a qualified person rule. */
export function current_A(apparent_VA: number, volts: number): number {
  return apparent_VA / positive(volts, 'voltage');
}

/**
 * Current in each line of a balanced three-phase load; `lineVolts` is between lines (400, 208), not to neutral.
 * Planning only: local codes and a qualified person rule.
 */
export function threePhaseCurrent_A(apparent_VA: number, lineVolts: number): number {
  return apparent_VA / (Math.sqrt(3) * positive(lineVolts, 'line voltage'));
}

/**
 * The current a breaker may carry for hours, fraction × rating.
 * Planning only: local codes and a qualified person rule.
 */
export function continuousLimit_A(breaker_A: number, fraction = CONTINUOUS_FRACTION): number {
  return positive(breaker_A, 'breaker rating in amperes') * positive(fraction, 'continuous fraction');
}

/**
 * How many equal heads stay within a current limit by their running current. Switch-on inrush is not counted and can trip
 * a breaker that the running current does not. Planning only: local codes and a qualified person rule.
 */
export function headsThatFit(head_A: number, limit_A: number): number {
  const each = positive(head_A, 'current of one head in amperes');
  // A limit that is met exactly must not lose a head to rounding.
  return Math.floor(positive(limit_A, 'current limit in amperes') / each + 1e-9);
}
