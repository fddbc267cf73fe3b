/**
 * Exposure value: EV = log₂(N²/t) (ISO 2721). At ISO 100 it names a light level: E = (C/100)·2^EV lx and
 * L = (K/100)·2^EV cd/m², so EV100 0 is 2.5 lx at C = 250 and 0.125 cd/m² at K = 12.5.
 */
import { nonNegative, positive } from '../units/quantity.ts';

/** EV of a stop and a shutter time, whatever the speed. RangeError unless both are above zero. */
export function exposureValue(fNumber: number, shutter_s: number): number {
  return Math.log2(positive(fNumber, 'f-number') ** 2 / positive(shutter_s, 'shutter time in seconds'));
}

/** Illuminance that EV100 names, for the receptor's constant C. */
export function illuminanceOfEv100_lx(ev100: number, constant: number): number {
  return (positive(constant, 'calibration constant') / 100) * 2 ** ev100;
}

/** EV100 of an illuminance, for the receptor's constant C; −Infinity for no light. */
export function ev100OfIlluminance(illuminance_lx: number, constant: number): number {
  const E = nonNegative(illuminance_lx, 'illuminance in lux');
  return Math.log2((100 * E) / positive(constant, 'calibration constant'));
}

/** Luminance that EV100 names, for the reflected constant K. */
export function luminanceOfEv100_cd_m2(ev100: number, constant: number): number {
  return (positive(constant, 'calibration constant') / 100) * 2 ** ev100;
}

/** EV100 of a luminance, for the reflected constant K; −Infinity for no light. */
export function ev100OfLuminance(luminance_cd_m2: number, constant: number): number {
  const L = nonNegative(luminance_cd_m2, 'luminance in cd/m²');
  return Math.log2((100 * L) / positive(constant, 'calibration constant'));
}
