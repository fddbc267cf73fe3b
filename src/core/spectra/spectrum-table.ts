import { resampled, type Spectrum } from './wavelengths.ts';

/** A published or measured spectrum as the asset files hold it: evenly spaced values with their origin. */
export interface SpectrumTable {
  readonly name: string;
  /** Document and edition the figures are from. */
  readonly source: string;
  readonly wavelength_nm: { readonly start: number; readonly step: number };
  readonly values: readonly number[];
}

/** The table on the grid; see `resampled` for `outside`. Throws RangeError naming the table when it is malformed. */
export function spectrumOfTable(table: SpectrumTable, outside: 'zero' | 'held'): Spectrum {
  const { start, step } = table.wavelength_nm;
  try {
    return resampled(
      table.values.map((_, i) => start + step * i),
      table.values,
      outside,
    );
  } catch (cause) {
    throw new RangeError(`spectrum "${table.name}": ${(cause as Error).message}`, { cause });
  }
}
