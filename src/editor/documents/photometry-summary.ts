import { beamAngle_deg, fieldAngle_deg, type PlaneAngles } from '../../core/photometry/beam-angle.ts';
import type { CandelaTable } from '../../core/photometry/distribution.ts';
import { flux_lm } from '../../core/photometry/flux.ts';
import { intensityToward } from '../../core/photometry/intensity.ts';
import type { LuminousOpening, PhotometricFile } from '../../core/photometry/photometric-data.ts';
import { readPhotometricFile } from '../../core/photometry/photometric-file.ts';
import { PhotometryError, type PhotometryFault } from '../../core/photometry/photometry-error.ts';

/** What a person looks at before taking a photometric file for a lamp. */
export interface PhotometrySummary {
  readonly format: PhotometricFile['format'];
  readonly edition: PhotometricFile['edition'];
  readonly goniometry: CandelaTable['goniometry'];
  /** In the file's own words; empty where it has none. */
  readonly luminaire: string;
  readonly maker: string;
  /** Through the whole measured range, as the meter of this page uses it. */
  readonly flux_lm: number;
  /** What its lamps are rated at; null for absolute photometry. */
  readonly rated_lm: number | null;
  readonly peak_cd: number;
  readonly axis_cd: number;
  readonly beam: PlaneAngles;
  readonly field: PlaneAngles;
  readonly inputPower_W: number | null;
  readonly opening: LuminousOpening;
  readonly burnsByAttitude: boolean;
  /** Alternative fittings in a EULUMDAT file, counted; 1 where there is no choice. */
  readonly lampSets: number;
  readonly warnings: readonly string[];
  readonly sections: PolarSections;
}

/** Candela in the two planes through the axis, at even steps from −180° to 180° off it. */
export interface PolarSections {
  /** Toward C 0 where the angle is above zero, toward C 180 below. */
  readonly c0_cd: Float64Array;
  readonly c90_cd: Float64Array;
}

export type Looked =
  | { readonly summary: PhotometrySummary; readonly fault?: never }
  | {
      readonly fault: Pick<PhotometryFault, 'line' | 'found' | 'expected' | 'mend'>;
      readonly summary?: never;
    };

/** So fine that the narrowest spot still has a shape. */
export const SECTION_STEPS = 1440;
/** Files offer two or three; each one more is read once to know of it. */
const MOST_LAMP_SETS = 12;

/** Reads the file and sums it up, or says what is wrong with it, where, and how to mend it. */
export function lookAtPhotometry(name: string, bytes: Uint8Array, lampSet: number): Looked {
  const text = new TextDecoder('latin1').decode(bytes);
  try {
    const file = readPhotometricFile(name, text, lampSet);
    return { summary: summaryOf(file, lampSetsIn(file, name, text)) };
  } catch (error) {
    if (!(error instanceof PhotometryError)) throw error;
    const { line, found, expected, mend } = error;
    return { fault: { line, found, expected, mend } };
  }
}

function summaryOf(file: PhotometricFile, lampSets: number): PhotometrySummary {
  const { distribution, keywords } = file;
  return {
    format: file.format,
    edition: file.edition,
    goniometry: distribution.goniometry,
    luminaire: keywords.get('LUMINAIRE') ?? keywords.get('LABEL') ?? '',
    maker: keywords.get('MANUFAC') ?? '',
    flux_lm: flux_lm(distribution),
    rated_lm: file.lampLumens_lm,
    peak_cd: distribution.candela.reduce((most, candela) => Math.max(most, candela), 0),
    axis_cd: intensityToward(distribution, 0, 0, 1),
    beam: beamAngle_deg(distribution),
    field: fieldAngle_deg(distribution),
    inputPower_W: file.inputPower_W,
    opening: file.opening,
    burnsByAttitude: file.tilt !== null,
    lampSets,
    warnings: file.warnings,
    sections: sectionsOf(distribution),
  };
}

function sectionsOf(distribution: CandelaTable): PolarSections {
  const section = (toward: (sin: number) => readonly [r: number, t: number]) =>
    Float64Array.from({ length: SECTION_STEPS + 1 }, (_, i) => {
      const angle = ((i / SECTION_STEPS) * 2 - 1) * Math.PI;
      const [r, t] = toward(Math.sin(angle));
      return intensityToward(distribution, r, t, Math.cos(angle));
    });
  return { c0_cd: section((sin) => [sin, 0]), c90_cd: section((sin) => [0, sin]) };
}

/** Asked of the reader itself, which refuses a set that is not there before it reads any further. */
function lampSetsIn({ format }: PhotometricFile, name: string, text: string): number {
  if (format !== 'EULUMDAT') return 1;
  for (let sets = 1; sets < MOST_LAMP_SETS; sets++) {
    try {
      readPhotometricFile(name, text, sets);
    } catch (error) {
      if (error instanceof PhotometryError && error.code === 'NO_SUCH_LAMP_SET') return sets;
    }
  }
  return MOST_LAMP_SETS;
}
