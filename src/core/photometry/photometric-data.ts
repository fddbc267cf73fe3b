import type { CandelaTable } from './distribution.ts';
import type { LampTilt } from './tilt.ts';

/** What a photometric file says, in one form for both formats. */
export interface PhotometricFile {
  readonly format: 'LM-63' | 'EULUMDAT';
  /** Year of the LM-63 edition the file was read as; null for EULUMDAT, which has one edition. */
  readonly edition: 1986 | 1991 | 1995 | 2002 | 2019 | null;
  /**
   * Descriptive fields under LM-63's upper-case keywords (MANUFAC, LUMINAIRE, …); repeated ones are joined by
   * newlines, free label lines of a 1986 file stand under LABEL.
   */
  readonly keywords: ReadonlyMap<string, string>;
  readonly lampCount: number;
  /** Rated flux of all its lamps together; null for absolute photometry, which rates no lamp apart. */
  readonly lampLumens_lm: number | null;
  /** Null where the file states none. */
  readonly inputPower_W: number | null;
  readonly opening: LuminousOpening;
  readonly distribution: CandelaTable;
  /** Output against the attitude of the lamp (LM-63 TILT=INCLUDE); not yet applied to `distribution`. */
  readonly tilt: LampTilt | null;
  /** The luminaire's tilt on the goniometer (EULUMDAT), which `distribution` includes. */
  readonly measurementTilt_deg: number;
  /** Odd but usable, one sentence each. */
  readonly warnings: readonly string[];
}

/**
 * The luminous opening as the file states it. LM-63 measures length along C 0–C 180 and width along C 90–C 270;
 * in EULUMDAT files of long luminaires the length lies, by custom, along C 90–C 270.
 */
export interface LuminousOpening {
  /** `other`: a line, an ellipse, a sphere, a cylinder lying down; the sizes still hold. */
  readonly shape: 'point' | 'circle' | 'rectangle' | 'other';
  readonly width_m: number;
  readonly length_m: number;
  readonly height_m: number;
}
