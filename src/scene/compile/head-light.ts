import type { Distribution } from '../../core/photometry/distribution.ts';
import { distributionFrom, photometryUncertainty_stops } from '../../core/photometry/lamp-photometry.ts';
import type { PhotometricFile } from '../../core/photometry/photometric-file.ts';
import type { LampTilt } from '../../core/photometry/tilt.ts';
import { lampSpectrum } from '../../core/spectra/lamp-spectrum.ts';
import type { Spectrum } from '../../core/spectra/wavelengths.ts';
import { SPECTRUM_TABLES } from '../library/spectra.ts';
import type { Head } from '../schema/head.ts';

/** What all lamps of one head have in common. */
export interface HeadLight {
  readonly distribution: Distribution;
  readonly spectrum: Spectrum;
  readonly uncertainty_stops: number;
  /** From a photometric file whose output depends on how the lamp hangs. */
  readonly tilt: LampTilt | null;
}

/**
 * Light of a head. `file` is its photometric file, already read, for heads that have one.
 * @throws RangeError for a spectrum or photometry that no lamp can have
 */
export function headLight(head: Head, file: PhotometricFile | undefined): HeadLight {
  const { photometry } = head;
  return {
    distribution: photometry.kind === 'file' ? required(file).distribution : distributionFrom(photometry),
    spectrum: lampSpectrum(head.spectrum, SPECTRUM_TABLES),
    uncertainty_stops: photometryUncertainty_stops(photometry.kind),
    tilt: file?.tilt ?? null,
  };
}

function required(file: PhotometricFile | undefined): PhotometricFile {
  if (!file) throw new Error("a head's photometric file has not been read: read the scene's files first");
  return file;
}
