/**
 * Complex index n + ik of a bare metal for red, green and blue light, from its spectrum.
 *
 * For channel c with response r̄_c (linear RGB of the standard observer) in the light S, w_c = r̄_c·S/Σr̄_c·S:
 *   R_c = Σ w_c·R(λ) at normal incidence,  n_c = Σ w_c·n(λ),  k_c from R_c = ((n_c − 1)² + k_c²)/((n_c + 1)² + k_c²).
 * So the colour at normal incidence is exact in the light S, and the index carries it to other angles. S is a black body
 * of 4000 K, midway in reciprocal kelvin between illuminants A and D65, between which set lamps lie. Luminous
 * reflectance of the result against the whole spectrum under A and D65: within 1.3e-3 at normal incidence for aluminium,
 * chromium and stainless steel (nickel, the most coloured, 2.5e-3), within 2.5e-3 at every angle. Three wavelengths
 * picked out of the spectrum, or S = D65, are off by up to 3e-3 under A for stainless steel.
 */
import type { Vec3 } from '../math/vec3.ts';
import { RGB_FROM_XYZ } from '../picture/linear-rgb.ts';
import { X_BAR, Y_BAR, Z_BAR } from '../spectra/observer.ts';
import { planckSpectrum } from '../spectra/planck.ts';
import { resampled, type Spectrum } from '../spectra/wavelengths.ts';
import { conductorReflectance } from './fresnel.ts';

/** A published measurement as the asset files hold it. */
export interface ComplexIndexTable {
  readonly name: string;
  /** The paper the figures are from. */
  readonly source: string;
  readonly wavelength_nm: readonly number[];
  readonly n: readonly number[];
  readonly k: readonly number[];
}

/** Complex index at every wavelength of the grid. */
export interface ComplexIndexSpectrum {
  readonly n: Spectrum;
  readonly k: Spectrum;
}

/** Complex index for linear R, G and B. */
export interface MetalIndex {
  readonly n: Vec3;
  readonly k: Vec3;
}

const REFERENCE_K = 4000;

/** The table on the wavelength grid, linear between its rows. RangeError naming the table when it is malformed. */
export function complexIndexSpectrum(table: ComplexIndexTable): ComplexIndexSpectrum {
  try {
    const row = table.n.findIndex((n, i) => !(n > 0 && table.k[i]! >= 0));
    if (row >= 0) {
      throw new RangeError(
        `row ${row + 1} has n ${table.n[row]}, k ${table.k[row]}; n must be above zero and k not below it`,
      );
    }
    return {
      n: resampled(table.wavelength_nm, table.n, 'held'),
      k: resampled(table.wavelength_nm, table.k, 'held'),
    };
  } catch (cause) {
    throw new RangeError(`complex index of "${table.name}": ${(cause as Error).message}`, { cause });
  }
}

/** The effective index of each channel. RangeError naming the table when it is malformed. */
export function metalIndex(table: ComplexIndexTable): MetalIndex {
  const spectrum = complexIndexSpectrum(table);
  const R = spectrum.n.map((n, i) => conductorReflectance(1, n, spectrum.k[i]!));
  const light = planckSpectrum(REFERENCE_K);
  const index = ([x, y, z]: Vec3): readonly [n: number, k: number] => {
    const w = light.map((S, i) => S * (x * X_BAR[i]! + y * Y_BAR[i]! + z * Z_BAR[i]!));
    const n = weightedMean(spectrum.n, w);
    return [n, extinctionFor(weightedMean(R, w), n)];
  };
  const [red, green, blue] = [index(RGB_FROM_XYZ[0]), index(RGB_FROM_XYZ[1]), index(RGB_FROM_XYZ[2])];
  return { n: [red[0], green[0], blue[0]], k: [red[1], green[1], blue[1]] };
}

function weightedMean(values: Spectrum, weights: Spectrum): number {
  let sum = 0;
  let whole = 0;
  for (let i = 0; i < values.length; i++) {
    sum += values[i]! * weights[i]!;
    whole += weights[i]!;
  }
  return sum / whole;
}

/** k of a normal reflectance R and n; zero where n alone reflects more. */
function extinctionFor(R: number, n: number): number {
  return Math.sqrt(Math.max(0, (R * (n + 1) ** 2 - (n - 1) ** 2) / (1 - R)));
}
