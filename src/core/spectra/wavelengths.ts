/**
 * The one wavelength grid of the program: 380 to 780 nm every 5 nm, 81 samples. Integrals over it are plain sums times
 * 5 nm, as CIE 15 allows.
 */
export const FIRST_NM = 380;
export const LAST_NM = 780;
export const STEP_NM = 5;
export const SAMPLES = (LAST_NM - FIRST_NM) / STEP_NM + 1;

/** A value per grid wavelength: a spectral distribution, a transmission or a reflectance. */
export type Spectrum = Float64Array;

/** The grid itself, in nanometres. */
export const WAVELENGTHS_NM: Readonly<Spectrum> = Float64Array.from(
  { length: SAMPLES },
  (_, i) => FIRST_NM + STEP_NM * i,
);

/** The spectrum whose value at each grid wavelength is `valueAt(wavelength_nm)`. */
export function spectrumOf(valueAt: (wavelength_nm: number) => number): Spectrum {
  return WAVELENGTHS_NM.map((wavelength_nm) => valueAt(wavelength_nm));
}

/** Sample by sample product: light through a filter, or light off a surface. */
export function product(a: Readonly<Spectrum>, b: Readonly<Spectrum>): Spectrum {
  return a.map((value, i) => value * b[i]!);
}

export function scaled(spectrum: Readonly<Spectrum>, factor: number): Spectrum {
  return spectrum.map((value) => value * factor);
}

/**
 * A table of (wavelength, value) pairs on the grid, linear between its points. `outside` says what the table means
 * beyond its ends: `zero` (a lamp's power, not measured there) or `held` (a reflectance or transmission, which does not
 * stop at the end of the measurement).
 *
 * The table is sampled at the grid wavelengths, not averaged around them: lines narrower than 5 nm must have been
 * averaged over at least that width by the instrument, as hand-held spectrometers do.
 *
 * Throws RangeError, naming the row, when the columns differ in length, there are fewer than two rows, a number is not
 * finite, or the wavelengths do not rise.
 */
export function resampled(
  wavelength_nm: ArrayLike<number>,
  value: ArrayLike<number>,
  outside: 'zero' | 'held',
): Spectrum {
  const rows = wavelength_nm.length;
  if (rows !== value.length) {
    throw new RangeError(
      `spectrum table has ${rows} wavelengths and ${value.length} values; give one value for each wavelength`,
    );
  }
  if (rows < 2) throw new RangeError(`spectrum table has ${rows} rows; give at least two`);
  for (let i = 0; i < rows; i++) {
    if (!Number.isFinite(wavelength_nm[i]) || !Number.isFinite(value[i])) {
      throw new RangeError(
        `spectrum table row ${i + 1} is (${wavelength_nm[i]} nm, ${value[i]}); both must be finite numbers`,
      );
    }
    if (i > 0 && wavelength_nm[i]! <= wavelength_nm[i - 1]!) {
      throw new RangeError(
        `spectrum table row ${i + 1} is at ${wavelength_nm[i]} nm after ${wavelength_nm[i - 1]} nm; ` +
          'sort the rows by rising wavelength and keep each wavelength once',
      );
    }
  }
  let row = 0;
  return spectrumOf((at) => {
    if (at < wavelength_nm[0]!) return outside === 'held' ? value[0]! : 0;
    if (at > wavelength_nm[rows - 1]!) return outside === 'held' ? value[rows - 1]! : 0;
    while (row < rows - 2 && wavelength_nm[row + 1]! <= at) row++;
    const [from, to] = [wavelength_nm[row]!, wavelength_nm[row + 1]!];
    const t = (at - from) / (to - from);
    return value[row]! * (1 - t) + value[row + 1]! * t;
  });
}
