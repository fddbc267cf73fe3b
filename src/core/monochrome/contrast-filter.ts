/**
 * Contrast filters of black-and-white photography, as weights of linear RGB.
 *
 * The film is panchromatic and sees as the eye does, ȳ(λ); behind a filter its sensitivity is τ(λ)·ȳ(λ). A picture in
 * linear RGB knows of a spectrum only what the three colour-matching functions r̄, ḡ, b̄ of its primaries say, so the weights
 * are those whose w_R·r̄ + w_G·ḡ + w_B·b̄ comes nearest to τ·ȳ over 380–780 nm (least squares, no weight below zero, because
 * a filter only takes away), scaled to Σw = 1: exposure makes up for the filter, and a neutral keeps its luminance.
 *
 * The spectra are smooth ones of our own (no source): edges where the trade names of such filters put them. Against the
 * whole spectral sum, on painted patches in daylight, the weights are good to about ⅓ stop; lamps of a few narrow lines
 * can be off by more.
 */
import { type LinearRgb, RGB_FROM_XYZ } from '../picture/linear-rgb.ts';
import { times } from '../picture/matrix3.ts';
import { type ColourGel, colourGel } from '../spectra/colour-gel.ts';
import { X_BAR, Y_BAR, Z_BAR } from '../spectra/observer.ts';
import type { Spectrum } from '../spectra/wavelengths.ts';

export const CONTRAST_FILTERS = ['yellow', 'orange', 'red', 'green', 'blue'] as const;
export type ContrastFilter = (typeof CONTRAST_FILTERS)[number];

const SPECTRA: Readonly<Record<ContrastFilter, ColourGel>> = {
  yellow: { band: { shape: 'long-pass', edge_nm: 495 }, softness_nm: 30, top: 0.9, floor: 0.01 },
  orange: { band: { shape: 'long-pass', edge_nm: 550 }, softness_nm: 30, top: 0.9, floor: 0.005 },
  red: { band: { shape: 'long-pass', edge_nm: 595 }, softness_nm: 25, top: 0.9, floor: 0.002 },
  green: {
    band: { shape: 'band-pass', centre_nm: 535, width_nm: 90 },
    softness_nm: 40,
    top: 0.6,
    floor: 0.01,
  },
  blue: { band: { shape: 'short-pass', edge_nm: 490 }, softness_nm: 35, top: 0.7, floor: 0.005 },
};

/** Transmittance of a contrast filter. */
export function contrastFilterSpectrum(filter: ContrastFilter): Spectrum {
  return colourGel(SPECTRA[filter]);
}

/** The weights of a contrast filter. */
export function contrastFilterWeights(filter: ContrastFilter): LinearRgb {
  return weightsOfSensitivity(contrastFilterSpectrum(filter).map((tau, i) => tau * Y_BAR[i]!));
}

const SWEEPS = 400;

/**
 * Weights of linear RGB, none below zero and Σw = 1, nearest to a spectral sensitivity. RangeError when the sensitivity has
 * nothing in common with any of the three.
 */
export function weightsOfSensitivity(sensitivity: Readonly<Spectrum>): LinearRgb {
  const A = new Float64Array(9);
  const b = new Float64Array(3);
  for (let i = 0; i < sensitivity.length; i++) {
    const matching = times(RGB_FROM_XYZ, [X_BAR[i]!, Y_BAR[i]!, Z_BAR[i]!]);
    for (let p = 0; p < 3; p++) {
      b[p]! += matching[p]! * sensitivity[i]!;
      for (let q = 0; q < 3; q++) A[3 * p + q]! += matching[p]! * matching[q]!;
    }
  }
  // Coordinate descent: three unknowns, and it stays where no weight is below zero.
  const w = new Float64Array(3);
  for (let sweep = 0; sweep < SWEEPS; sweep++) {
    for (let p = 0; p < 3; p++) {
      let rest = b[p]!;
      for (let q = 0; q < 3; q++) if (q !== p) rest -= A[3 * p + q]! * w[q]!;
      w[p] = Math.max(0, rest / A[4 * p]!);
    }
  }
  const sum = w[0]! + w[1]! + w[2]!;
  if (!(sum > 0)) throw new RangeError('the sensitivity sees none of the visible spectrum');
  return [w[0]! / sum, w[1]! / sum, w[2]! / sum];
}
