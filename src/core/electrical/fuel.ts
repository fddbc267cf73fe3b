/**
 * What a generator burns: litres = kW × hours × litres per kWh.
 *
 * Valid from about half load up: a set that idles under a small load burns more for each kilowatt-hour.
 */
import { nonNegative } from '../units/quantity.ts';

/** A small petrol or diesel set, litres for each kilowatt-hour: common practice, no source. */
export const FUEL_L_PER_kWh = 0.5;

/** What is taken along above the sum: common practice, no source. */
export const FUEL_RESERVE = 0.3;

/** Litres burnt in an hour by a load in watts (real power, not volt-amperes). */
export function fuelRate_L_per_h(load_W: number, fuel_L_per_kWh = FUEL_L_PER_kWh): number {
  return (nonNegative(load_W, 'load in watts') / 1000) * nonNegative(fuel_L_per_kWh, 'litres per kWh');
}

/** Litres to bring for so many hours, reserve included. */
export function fuelToBring_L(rate_L_per_h: number, hours: number, reserve = FUEL_RESERVE): number {
  return rate_L_per_h * nonNegative(hours, 'hours') * (1 + nonNegative(reserve, 'reserve'));
}
