import { lampSpectrum } from '../../../core/spectra/lamp-spectrum.ts';
import type { Spectrum } from '../../../core/spectra/wavelengths.ts';
import { SPECTRUM_TABLES } from '../../../scene/library/spectra.ts';
import type { LampSpectrum } from '../../../scene/schema/head.ts';

const MOST_KEPT = 64;
const kept = new Map<string, Spectrum>();

/**
 * The spectrum of a head's light per lumen, kept for the next question about it.
 * @throws RangeError for a spectrum that no lamp can have
 */
export function spectrumOfLamp(spectrum: LampSpectrum): Spectrum {
  const key = JSON.stringify(spectrum);
  let known = kept.get(key);
  if (!known) {
    if (kept.size >= MOST_KEPT) kept.clear();
    known = lampSpectrum(spectrum, SPECTRUM_TABLES);
    kept.set(key, known);
  }
  return known;
}
