/**
 * Planck's law: L_λ = c₁L·λ⁻⁵ / (exp(c₂/(λT)) − 1), refractive index 1.
 * c₂ = 1.4388·10⁻² m·K is the value colorimetry uses (CIE 15; ITS-90), not the newer CODATA 1.438777·10⁻².
 */

import { positive } from '../units/quantity.ts';
import { type Spectrum, spectrumOf } from './wavelengths.ts';

/** Second radiation constant, m·K. */
export const C2_M_K = 1.4388e-2;

/** First radiation constant for radiance, 2hc², W·m²/sr. */
export const C1_RADIANCE_W_M2 = 1.191042972e-16;

/** Spectral radiance of a black body at `temperature_K`, W·m⁻²·sr⁻¹·nm⁻¹. RangeError unless the temperature is above zero. */
export function planckSpectrum(temperature_K: number): Spectrum {
  const T = positive(temperature_K, 'black-body temperature in kelvin');
  return spectrumOf((wavelength_nm) => {
    const lambda = wavelength_nm * 1e-9;
    return (1e-9 * C1_RADIANCE_W_M2) / (lambda ** 5 * Math.expm1(C2_M_K / (lambda * T)));
  });
}
