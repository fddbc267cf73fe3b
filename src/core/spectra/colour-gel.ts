/**
 * Saturated colour gels as smooth spectra. With the logistic step ℓ(x) = 1/(1 + e^(−kx)), k = 2·ln 9/softness:
 *
 *   τ(λ) = floor + (top − floor)·s(λ)
 *   long-pass   s = ℓ(λ − edge)                              short-pass  s = ℓ(edge − λ)
 *   band-pass   s = ℓ(x + width/2)·ℓ(width/2 − x)/ℓ(width/2)², x = λ − centre
 *   notch       s = 1 − the band-pass
 *
 * `softness` is the span in which an edge goes from 10 % to 90 %, `width` that between the half-way points of the edges; a
 * band or notch as narrow as its softness is 1.17 times as wide at half its height, one of twice that 1.01 times. Model of
 * our own, no source: dyes have shoulders and second bands that it has not, and most pass deep red again. A measured table
 * is better. Valid for 380–780 nm.
 */

import { positive } from '../units/quantity.ts';
import { type Spectrum, spectrumOf } from './wavelengths.ts';

/** Which part of the spectrum passes; a notch stops what is within. */
export type ColourBand =
  | { readonly shape: 'long-pass' | 'short-pass'; readonly edge_nm: number }
  | { readonly shape: 'band-pass' | 'notch'; readonly centre_nm: number; readonly width_nm: number };

export interface ColourGel {
  readonly band: ColourBand;
  /** From 10 % to 90 % of an edge. */
  readonly softness_nm: number;
  /** Transmittance where it passes most, and the leak where it passes least. */
  readonly top: number;
  readonly floor: number;
}

/**
 * Transmittance of a colour gel. RangeError unless every wavelength is finite, the softness and width are above zero, and
 * 0 ≤ floor < top ≤ 1.
 */
export function colourGel({ band, softness_nm, top, floor }: ColourGel): Spectrum {
  if (!(floor >= 0 && floor < top && top <= 1)) {
    throw new RangeError(
      `colour gel passes ${floor} to ${top}; give a floor of zero or more below a top of at most 1`,
    );
  }
  const share = passedShare(band, positive(softness_nm, 'softness of the colour gel in nm'));
  return spectrumOf((wavelength_nm) => floor + (top - floor) * share(wavelength_nm));
}

function passedShare(band: ColourBand, softness_nm: number): (wavelength_nm: number) => number {
  const k = (2 * Math.log(9)) / softness_nm;
  const step = (x: number) => 1 / (1 + Math.exp(-k * x));
  switch (band.shape) {
    case 'long-pass': {
      const edge_nm = positive(band.edge_nm, 'edge of the colour gel in nm');
      return (wavelength_nm) => step(wavelength_nm - edge_nm);
    }
    case 'short-pass': {
      const edge_nm = positive(band.edge_nm, 'edge of the colour gel in nm');
      return (wavelength_nm) => step(edge_nm - wavelength_nm);
    }
    case 'band-pass':
    case 'notch': {
      const centre_nm = positive(band.centre_nm, 'centre of the colour gel in nm');
      const half = positive(band.width_nm, 'width of the colour gel in nm') / 2;
      const within = (x: number) => step(x + half) * step(half - x);
      const most = within(0);
      const stops = band.shape === 'notch';
      return (wavelength_nm) => {
        const inside = within(wavelength_nm - centre_nm) / most;
        return stops ? 1 - inside : inside;
      };
    }
  }
}
