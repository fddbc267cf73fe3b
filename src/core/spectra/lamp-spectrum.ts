/**
 * What a lamp emits at each wavelength, before filters, per lumen: W·nm⁻¹·lm⁻¹, so that the photometry holds whatever the
 * colour (K_m·ΣS·V·Δλ = 1 lm).
 *
 * `discharge` and `led` take the published typical lamp nearest in mired and move it to the wanted colour temperature by
 * the ideal conversion filter, solved so that the result measures it within 0.01 K. The typical lamp's own departure from
 * white (Duv) is only approximately kept; its lines and bands are. Known limit: no published lamp of the series is near
 * 5600 K, so a daylight discharge head is a moved 4000 K lamp; where a measured table exists, use it.
 */
import { colourTemperatureOf } from './colour-temperature.ts';
import { idealConversionFilter } from './conversion-filter.ts';
import { type DaylightBasis, daylightSpectrum } from './daylight.ts';
import { kelvinFromMired, miredFromKelvin } from './mired.ts';
import { tristimulusOf } from './observer.ts';
import { planckSpectrum } from './planck.ts';
import { product, resampled, type Spectrum, scaled } from './wavelengths.ts';

/** A lamp's `spectrum` as the document writes it. */
export type LampSpectrum =
  | { readonly kind: 'planck' | 'daylight' | 'discharge' | 'led'; readonly cct_K: number }
  | { readonly kind: 'table'; readonly wavelength_nm: readonly number[]; readonly value: readonly number[] };

/** Published figures the core is handed: daylight components, and typical lamps of each kind, any order and scale. */
export interface SpectrumTables {
  readonly daylight: DaylightBasis;
  readonly discharge: readonly Readonly<Spectrum>[];
  readonly led: readonly Readonly<Spectrum>[];
}

export const LAMP_MIN_K = 1000;
export const LAMP_MAX_K = 25000;

/**
 * RangeError when the colour temperature is outside 1000–25 000 K (daylight: 4000–25 000 K), when a table is malformed,
 * has a negative value or no visible light, and when no typical lamp of the kind is at hand.
 */
export function lampSpectrum(lamp: LampSpectrum, tables: SpectrumTables): Spectrum {
  if (lamp.kind === 'table') return perLumen(tabled(lamp.wavelength_nm, lamp.value));
  const { kind, cct_K } = lamp;
  if (!(cct_K >= LAMP_MIN_K && cct_K <= LAMP_MAX_K)) {
    throw new RangeError(
      `${kind} spectrum of ${cct_K} K is out of range; give cct_K from ${LAMP_MIN_K} to ${LAMP_MAX_K}, ` +
        'or a measured table',
    );
  }
  switch (kind) {
    case 'planck':
      return perLumen(planckSpectrum(cct_K));
    case 'daylight':
      return perLumen(daylightSpectrum(cct_K, tables.daylight));
    case 'discharge':
    case 'led':
      return perLumen(movedTo(cct_K, nearestTypical(cct_K, tables[kind], kind)));
  }
}

function tabled(wavelength_nm: readonly number[], value: readonly number[]): Spectrum {
  const row = value.findIndex((v) => v < 0);
  if (row >= 0) {
    throw new RangeError(
      `spectrum table row ${row + 1} is ${value[row]} at ${wavelength_nm[row]} nm; a lamp's power cannot be negative`,
    );
  }
  return resampled(wavelength_nm, value, 'zero');
}

function perLumen(spectrum: Spectrum): Spectrum {
  const [, flux_lm] = tristimulusOf(spectrum);
  if (flux_lm > 0) return scaled(spectrum, 1 / flux_lm);
  throw new RangeError('lamp spectrum has no visible light between 380 and 780 nm; check its values');
}

function miredOf(spectrum: Spectrum): number {
  const colour = colourTemperatureOf(tristimulusOf(spectrum));
  if (colour) return miredFromKelvin(colour.cct_K);
  throw new RangeError('a typical lamp spectrum has no visible light; check the spectrum tables');
}

interface TypicalLamp {
  readonly spectrum: Spectrum;
  readonly mired: number;
}

function nearestTypical(cct_K: number, spectra: readonly Readonly<Spectrum>[], kind: string): TypicalLamp {
  const wanted = miredFromKelvin(cct_K);
  const [first, ...others] = spectra.map((spectrum) => ({ spectrum, mired: miredOf(spectrum) }));
  if (!first) throw new RangeError(`no typical ${kind} spectrum is at hand; supply at least one`);
  return others.reduce(
    (best, lamp) => (Math.abs(lamp.mired - wanted) < Math.abs(best.mired - wanted) ? lamp : best),
    first,
  );
}

/** Secant in the filter's shift; a lamp that is no black body answers the shift with a little more or less. */
function movedTo(cct_K: number, typical: TypicalLamp): Spectrum {
  const wanted = miredFromKelvin(cct_K);
  let shift = 0;
  let miss = typical.mired - wanted;
  let slope = 1;
  let moved = typical.spectrum;
  for (let i = 0; i < 50; i++) {
    if (Math.abs(kelvinFromMired(wanted + miss) - cct_K) < 0.01) return moved;
    const step = -miss / slope;
    shift += step;
    moved = product(typical.spectrum, idealConversionFilter(shift));
    const missed = miredOf(moved) - wanted;
    slope = (missed - miss) / step;
    miss = missed;
  }
  throw new RangeError(
    `no conversion filter turns the typical lamp into one of ${cct_K} K; use a measured table`,
  );
}
