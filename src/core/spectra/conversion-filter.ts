/**
 * Colour-conversion filters named by their mired shift Δ (+ orange, − blue).
 *
 * Ideal: τ(λ) = τ_max·exp(−c₂·Δ·10⁻⁶/λ), normalised to its maximum in 380–780 nm. Exact in the Wien limit, where it turns
 * any black body into another; against full Planck the 5600→3200 K filter lands on 3182 K.
 *
 * The ideal shape reaches its maximum at an end of the spectrum, where the eye is blind. Real gels stop absorbing long
 * before, so the ideal filter with τ_max = 1 reads low against published typical luminous transmissions: orange on
 * daylight by 0.81, 0.66, 0.35, 0.10 stop (full, half, quarter, eighth), blue on 3200 K by 0.90, 0.48, 0.07, 0.02.
 * A gel is therefore the ideal shape between 435 and 635 nm and clear beyond, times the 0.95 that clear film passes.
 * Those three numbers are set from the same published figures (makers' tables, from memory, ±0.03): all eight gels then
 * agree within 0.10 stop, no wavelength passes more than the film does, and the shift stays within 3.5 mired of the
 * number on its design lamp (full orange; the others within 1.5).
 */

import { positive } from '../units/quantity.ts';
import { luminousFraction } from './observer.ts';
import { C2_M_K, planckSpectrum } from './planck.ts';
import { FIRST_NM, LAST_NM, type Spectrum, scaled, spectrumOf } from './wavelengths.ts';

/** A blue gel is clear below the first, an orange one above the second. */
const BLUE_CLEAR_NM = 435;
const ORANGE_CLEAR_NM = 635;

/** What a clear film passes: about 0.92 with two faces of index 1.5, up to 1. */
export const CLEAR_FILM_TRANSMISSION = 0.95;

/** The ideal filter. RangeError unless `shift_mired` is finite and `transmissionMax` above zero and at most 1. */
export function idealConversionFilter(shift_mired: number, transmissionMax = 1): Spectrum {
  const strongest_nm = shift_mired > 0 ? LAST_NM : FIRST_NM;
  const top = checkedMaximum(transmissionMax);
  const tau = wienRatio(shift_mired, strongest_nm);
  return spectrumOf((wavelength_nm) => top * tau(wavelength_nm));
}

/** The gel as described above. RangeError unless `shift_mired` is finite and `transmissionMax` above zero and at most 1. */
export function conversionGel(shift_mired: number, transmissionMax = CLEAR_FILM_TRANSMISSION): Spectrum {
  const edge_nm = shift_mired > 0 ? ORANGE_CLEAR_NM : BLUE_CLEAR_NM;
  const top = checkedMaximum(transmissionMax);
  const tau = wienRatio(shift_mired, edge_nm);
  return spectrumOf((wavelength_nm) => top * Math.min(1, tau(wavelength_nm)));
}

/** The lamps that swatch books state a gel's transmission for: orange on daylight, blue on tungsten. */
const DAYLIGHT_K = 5600;
const TUNGSTEN_K = 3200;

/**
 * The gel scaled so that it passes the luminous share that its swatch states, on the lamp it is made for.
 * RangeError unless `transmission` is above zero and at most 1.
 */
export function conversionGelOfTransmission(shift_mired: number, transmission: number): Spectrum {
  const designLamp = planckSpectrum(shift_mired > 0 ? DAYLIGHT_K : TUNGSTEN_K);
  const gel = conversionGel(shift_mired, 1);
  return scaled(gel, checkedMaximum(transmission) / luminousFraction(designLamp, gel));
}

/** exp(−c₂·Δ·10⁻⁶/λ), 1 at `unity_nm`. */
function wienRatio(shift_mired: number, unity_nm: number): (wavelength_nm: number) => number {
  if (!Number.isFinite(shift_mired)) {
    throw new RangeError(
      `mired shift is ${shift_mired}; give a finite number, negative for blue and positive for orange`,
    );
  }
  const perInverse_nm = C2_M_K * shift_mired * 1e-6 * 1e9;
  return (wavelength_nm) => Math.exp(-perInverse_nm * (1 / wavelength_nm - 1 / unity_nm));
}

function checkedMaximum(transmissionMax: number): number {
  if (positive(transmissionMax, 'greatest transmission of the filter') <= 1) return transmissionMax;
  throw new RangeError(
    `greatest transmission of the filter is ${transmissionMax}; a filter passes at most 1 (write 55 % as 0.55)`,
  );
}
