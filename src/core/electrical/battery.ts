/**
 * How long a battery lasts: hours = Wh × usable/W, in the cold × 0.8.
 *
 * For a healthy battery drained within a few hours of its rating; age, and currents near its limit, take more.
 */
import { nonNegative, positive } from '../units/quantity.ts';

/** What of the rated energy reaches the lamp: common practice, no source. */
export const BATTERY_USABLE = 0.85;

/** What cold near freezing leaves of that: common practice, no source. */
export const BATTERY_COLD = 0.8;

/** Hours at a load in watts, warm. RangeError unless the load is above zero. */
export function batteryHours(capacity_Wh: number, load_W: number, usable = BATTERY_USABLE): number {
  return (
    (nonNegative(capacity_Wh, 'capacity in watt-hours') * positive(usable, 'usable share')) /
    positive(load_W, 'load in watts')
  );
}

/** The same hours in the cold. */
export function coldBatteryHours(hours: number): number {
  return hours * BATTERY_COLD;
}
