/**
 * Reader of EULUMDAT files (A. W. Stockmar, EULUMDAT: ein Leuchtendatenformat für den europäischen
 * Beleuchtungsplaner, Licht '90).
 *
 * I = value · conversion factor · Φ/1000, with Φ the total flux of the chosen lamp set, all its lamps together. A
 * negative number of lamps marks absolute photometry; the values are candela a kilolumen all the same.
 */
import { readLampSet } from './eulumdat-lamps.ts';
import { nextCount, nextLine, nextNumber } from './eulumdat-lines.ts';
import {
  checkGammaRange,
  type Symmetry,
  storedAngles_deg,
  storedPlanes,
  unfolded,
} from './eulumdat-planes.ts';
import { usableText } from './file-text.ts';
import { LineReader } from './line-reader.ts';
import { NumberReader } from './number-reader.ts';
import type { LuminousOpening, PhotometricFile } from './photometric-data.ts';
import { gapWarning } from './photometric-plane.ts';
import { refuse } from './photometry-error.ts';
import {
  checkTableSize,
  checkValuesAhead,
  poleWarnings,
  readAngles,
  readPlane,
  surplusWarning,
  tableFrom,
} from './table-reading.ts';

const DIRECT_RATIOS = 10;
const METRES_PER_MILLIMETRE = 1e-3;

/** True where lines 2 to 7, the figures every EULUMDAT file begins with, are numbers. */
export function looksLikeEulumdat(text: string): boolean {
  const lines = text.slice(0, 1000).split(/\r\n|\n|\r/);
  return lines.length > 7 && lines.slice(1, 7).every((line) => /^\s*\d+(?:[.,]\d*)?\s*$/.test(line));
}

/**
 * The content of a EULUMDAT file, symmetry unfolded, in candela.
 * @param file its name, for messages
 * @param lampSet which of its alternative lamp sets, from 0
 * @throws PhotometryError where the file cannot be used as light
 */
export function readEulumdat(file: string, text: string, lampSet = 0): PhotometricFile {
  const bare = usableText(file, text);
  const lines = new LineReader(file, bare);
  const warnings: string[] = [];

  const company = nextLine(lines, 'the company');
  nextNumber(lines, 'the type indicator');
  const symmetry = readSymmetry(lines);
  const planeCount = nextCount(lines, 'the number of C-planes', 1);
  nextNumber(lines, 'the distance between C-planes');
  const gammaCount = nextCount(lines, 'the number of gamma angles', 2);
  const countsLine = lines.place.line;
  checkTableSize(planeCount, gammaCount, lines.place);
  nextNumber(lines, 'the distance between gamma angles');
  const report = nextLine(lines, 'the report number');
  const luminaire = nextLine(lines, 'the luminaire name');
  const catalogue = nextLine(lines, 'the luminaire number');
  nextLine(lines, 'the file name');
  const date = nextLine(lines, 'the date');
  for (const what of ['length', 'width', 'height']) nextNumber(lines, `the ${what} of the luminaire`);
  const opening = readOpening(lines);
  nextNumber(lines, 'the downward flux fraction');
  nextNumber(lines, 'the light output ratio');
  const conversion = readConversion(lines);
  const measurementTilt_deg = nextNumber(lines, 'the tilt during measurement');
  if (measurementTilt_deg !== 0) {
    warnings.push(`measured at a tilt of ${measurementTilt_deg} degrees, which the intensities include`);
  }
  const lamps = readLampSet(lines, lampSet, warnings);

  const reader = new NumberReader(file, bare, lines.offset, lines.place.line + 1, 'comma-is-point');
  const stored = storedPlanes(symmetry, planeCount, lines.place.file, countsLine);
  const surplus = checkValuesAhead(
    reader,
    DIRECT_RATIOS + planeCount + gammaCount + stored * gammaCount,
    countsLine,
    `${DIRECT_RATIOS} direct ratios, ${planeCount} C angles, ${gammaCount} gamma angles, and ${stored} x ${gammaCount} intensities`,
  );
  for (let i = 0; i < DIRECT_RATIOS; i++) reader.next('a direct ratio');
  const c_deg = readAngles(reader, planeCount, 'C angle');
  const cPlace = reader.place;
  const gamma_deg = readAngles(reader, gammaCount, 'gamma angle');
  checkGammaRange(gamma_deg, reader.place, warnings);
  const storedAngles = storedAngles_deg(symmetry, c_deg, stored, cPlace);
  const measured = storedAngles.map((horizontal_deg) => ({
    horizontal_deg,
    candela: readPlane(reader, gammaCount, (conversion * lamps.flux_lm) / 1000),
  }));
  if (symmetry === 0) warnings.push(...gapWarning(measured));
  const planes = unfolded(symmetry, measured);
  warnings.push(...poleWarnings(gamma_deg, planes), ...surplusWarning(surplus));

  return {
    format: 'EULUMDAT',
    edition: null,
    keywords: new Map([
      ['MANUFAC', company],
      ['TEST', report],
      ['LUMINAIRE', luminaire],
      ['LUMCAT', catalogue],
      ['ISSUEDATE', date],
      ['LAMP', lamps.type],
    ]),
    lampCount: lamps.count,
    lampLumens_lm: lamps.absolute ? null : lamps.flux_lm,
    inputPower_W: lamps.inputPower_W,
    opening,
    distribution: tableFrom('C', gamma_deg, planes, reader.place),
    tilt: null,
    measurementTilt_deg,
    warnings,
  };
}

/** Lines 16 to 21: length or diameter, width (0 for a circle), and the heights toward C 0, 90, 180 and 270. */
function readOpening(lines: LineReader): LuminousOpening {
  const length = nextNumber(lines, 'the length of the luminous area');
  const width = nextNumber(lines, 'the width of the luminous area');
  const heights = [0, 90, 180, 270].map((c) =>
    nextNumber(lines, `the height of the luminous area toward C ${c}`),
  );
  return {
    shape: length <= 0 ? 'point' : width <= 0 ? 'circle' : 'rectangle',
    length_m: Math.abs(length) * METRES_PER_MILLIMETRE,
    width_m: Math.abs(width || length) * METRES_PER_MILLIMETRE,
    height_m: Math.max(0, ...heights) * METRES_PER_MILLIMETRE,
  };
}

function readConversion(lines: LineReader): number {
  const conversion = nextNumber(lines, 'the conversion factor');
  if (conversion > 0) return conversion;
  return refuse(
    lines.place,
    'BAD_MULTIPLIER',
    `${conversion} as the conversion factor`,
    'a number above zero',
    'Write 1 if the intensities need no conversion.',
  );
}

function readSymmetry(lines: LineReader): Symmetry {
  const symmetry = nextNumber(lines, 'the symmetry indicator');
  if (symmetry === 0 || symmetry === 1 || symmetry === 2 || symmetry === 3 || symmetry === 4) return symmetry;
  return refuse(
    lines.place,
    'BAD_SYMMETRY',
    `${symmetry} as the symmetry indicator`,
    '0, 1, 2, 3 or 4',
    'Correct it: 0 stands for a file that stores every plane.',
  );
}
