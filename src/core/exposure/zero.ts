/**
 * The camera's zero: the light that a meter set to the camera's stop, shutter and speed calls correct.
 *   E₀ = C·N²/(t·S)·2^(ND + loss)      L₀ = K·N²/(t·S)·2^(ND + loss)
 * (ISO 2720:1974.) C, K depend on the meter: ISO 2720 allows C 240–400 for a flat receptor, 320–540 for a dome, K
 * 10.6–13.4, so print the constants beside the reading. L₀ is middle grey in the frame.
 */
import { nonNegative, positive } from '../units/quantity.ts';

/** Meter constants C (flat and dome receptor, lx) and K (reflected, cd/m²), each at t·S/N² = 1. */
export interface Calibration {
  readonly flat: number;
  readonly dome: number;
  readonly reflected: number;
}

export const DEFAULT_CALIBRATION: Calibration = { flat: 250, dome: 330, reflected: 12.5 };

/** What sits between the light and the sensor, other than the f-number. Losses are stops, positive darkens. */
export interface ShutterAndSpeed {
  readonly shutter_s: number;
  readonly iso: number;
  readonly nd_stops: number;
  /** Transmission loss of the lens: T-number over f-number, in stops. */
  readonly loss_stops: number;
}

export interface CameraExposure extends ShutterAndSpeed {
  readonly fNumber: number;
}

export interface Zero {
  readonly flat_lx: number;
  readonly dome_lx: number;
  readonly luminance_cd_m2: number;
}

/** RangeError names the setting that is not above zero (or, for the losses, below zero). */
export function zeroOf(exposure: CameraExposure, calibration: Calibration = DEFAULT_CALIBRATION): Zero {
  const N = positive(exposure.fNumber, 'f-number');
  const demand = N ** 2 / perSquaredFNumber(exposure);
  return {
    flat_lx: positive(calibration.flat, 'calibration constant, flat') * demand,
    dome_lx: positive(calibration.dome, 'calibration constant, dome') * demand,
    luminance_cd_m2: positive(calibration.reflected, 'calibration constant, reflected') * demand,
  };
}

/** t·S/2^(ND + loss): what the exposure makes of light, for N = 1. */
export function perSquaredFNumber({ shutter_s, iso, nd_stops, loss_stops }: ShutterAndSpeed): number {
  const t = positive(shutter_s, 'shutter time in seconds');
  const S = positive(iso, 'ISO speed');
  const losses = nonNegative(nd_stops, 'ND in stops') + nonNegative(loss_stops, 'transmission loss in stops');
  return (t * S) / 2 ** losses;
}
