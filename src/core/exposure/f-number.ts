import { nonNegative, positive } from '../units/quantity.ts';
import { perSquaredFNumber, type ShutterAndSpeed } from './zero.ts';

/**
 * The f-number an incident meter indicates: N = √(E·t·S/C), with E reduced by ND and lens loss (ISO 2720:1974).
 * `constant` is C of the receptor that read the illuminance. No light indicates f/0: no opening is wide enough.
 * RangeError when a setting is not above zero or the illuminance is negative.
 */
export function indicatedFNumber(
  illuminance_lx: number,
  settings: ShutterAndSpeed,
  constant: number,
): number {
  const E = nonNegative(illuminance_lx, 'illuminance in lux');
  const C = positive(constant, 'calibration constant');
  return Math.sqrt((E * perSquaredFNumber(settings)) / C);
}
