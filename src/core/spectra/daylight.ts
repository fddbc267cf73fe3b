/**
 * CIE daylight of a colour temperature: S(λ) = S₀ + M₁·S₁ + M₂·S₂, with M₁, M₂ from the chromaticity (x_D, y_D) of the
 * daylight locus (Judd, MacAdam & Wyszecki 1964; CIE 15:2018). Relative power, 100 at 560 nm.
 * Valid from 4000 to 25 000 K. Kelvin are on today's temperature scale: D65 is 6504 K, not 6500.
 * Known error: M₁ and M₂ are not rounded to three decimals as the published D tables did, which moves a sample by less
 * than 0.1.
 */
import { FIRST_NM, type Spectrum, STEP_NM, spectrumOf } from './wavelengths.ts';

/** The three published components of daylight on the grid. */
export interface DaylightBasis {
  readonly S0: Readonly<Spectrum>;
  readonly S1: Readonly<Spectrum>;
  readonly S2: Readonly<Spectrum>;
}

export const DAYLIGHT_MIN_K = 4000;
export const DAYLIGHT_MAX_K = 25000;

/** CIE 1931 chromaticity of the daylight locus. RangeError outside 4000–25 000 K. */
export function daylightXy(cct_K: number): { readonly x: number; readonly y: number } {
  if (!(cct_K >= DAYLIGHT_MIN_K && cct_K <= DAYLIGHT_MAX_K)) {
    throw new RangeError(
      `daylight of ${cct_K} K is not defined; ask for ${DAYLIGHT_MIN_K} to ${DAYLIGHT_MAX_K} K, or use a black body`,
    );
  }
  const t = 1e3 / cct_K;
  const x =
    cct_K <= 7000
      ? ((-4.607 * t + 2.9678) * t + 0.09911) * t + 0.244063
      : ((-2.0064 * t + 1.9018) * t + 0.24748) * t + 0.23704;
  return { x, y: (-3 * x + 2.87) * x - 0.275 };
}

/** Relative spectral power of daylight. RangeError outside 4000–25 000 K. */
export function daylightSpectrum(cct_K: number, basis: DaylightBasis): Spectrum {
  const { x, y } = daylightXy(cct_K);
  const M = 0.0241 + 0.2562 * x - 0.7341 * y;
  const M1 = (-1.3515 - 1.7703 * x + 5.9114 * y) / M;
  const M2 = (0.03 - 31.4424 * x + 30.0717 * y) / M;
  return spectrumOf((wavelength_nm) => {
    const i = (wavelength_nm - FIRST_NM) / STEP_NM;
    return basis.S0[i]! + M1 * basis.S1[i]! + M2 * basis.S2[i]!;
  });
}
