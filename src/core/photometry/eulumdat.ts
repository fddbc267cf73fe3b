/**
 * Reader of EULUMDAT files (A. W. Stockmar, EULUMDAT: ein Leuchtendatenformat für den europäischen
 * Beleuchtungsplaner, Licht '90).
 *
 * I = value · conversion factor · Φ/1000, with Φ the total flux of the chosen lamp set, all its lamps together. A
 * negative number of lamps marks absolute photometry; the values are candela a kilolumen all the same.
 */
import { usableText } from './file-text.ts';
import { LineReader } from './line-reader.ts';
import { NumberReader } from './number-reader.ts';
import { numberFrom, type Place } from './number-token.ts';
import type { LuminousOpening, PhotometricFile } from './photometric-data.ts';
import { closedCircle, gapWarning, mirrored, type PhotometricPlane } from './photometric-plane.ts';
import { refuse } from './photometry-error.ts';
import {
  checkedCount,
  checkTableSize,
  checkValuesAhead,
  poleWarnings,
  readAngles,
  readPlane,
  surplusWarning,
  tableFrom,
} from './table-reading.ts';

const DIRECT_RATIOS = 10;
const MAX_LAMP_SETS = 100;
const MAX_LUMENS = 1e12;
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
  const lamps = readLampSets(lines, lampSet, warnings);

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

/** 0 none, 1 about the axis, 2 to plane C 0–C 180, 3 to plane C 90–C 270, 4 to both. */
type Symmetry = 0 | 1 | 2 | 3 | 4;

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

/** How many of the planes the file stores: Mc, 1, Mc/2+1, Mc/2+1 or Mc/4+1 (Stockmar). */
function storedPlanes(symmetry: Symmetry, planeCount: number, file: string, line: number): number {
  const divisor = ([1, 1, 2, 2, 4] as const)[symmetry];
  if (planeCount % divisor !== 0 || (symmetry === 0 && planeCount === 1)) {
    refuse(
      { file, line },
      'BAD_COUNT',
      `${planeCount} C-planes with symmetry ${symmetry}`,
      symmetry === 0 ? '2 planes or more' : `a number of planes that divides by ${divisor}`,
      'Correct the number of C-planes on line 4 or the symmetry on line 3.',
    );
  }
  if (symmetry === 0) return planeCount;
  return symmetry === 1 ? 1 : planeCount / divisor + 1;
}

/**
 * The angles of the stored planes, increasing. The file lists the angles of all planes; with symmetry 3 the stored
 * ones begin at C 270 and run through C 0 to C 90, written here as −90 to 90.
 */
function storedAngles_deg(symmetry: Symmetry, c_deg: Float64Array, stored: number, place: Place): number[] {
  if (symmetry === 1) return [0];
  const first = symmetry === 3 ? c_deg.indexOf(270) : 0;
  const angles = Array.from({ length: stored }, (_, i) => {
    const angle = c_deg[(first + i) % c_deg.length] ?? Number.NaN;
    return symmetry === 3 && angle >= 180 ? angle - 360 : angle;
  });
  const [from, to] = (
    [
      [0, null],
      [0, null],
      [0, 180],
      [-90, 90],
      [0, 90],
    ] as const
  )[symmetry];
  const start = angles[0];
  const end = angles[stored - 1]!;
  if (start !== from || (to === null ? end > 360 : end !== to)) {
    const wanted = symmetry === 3 ? '270 through 0 to 90' : `0 to ${to ?? 'at most 360'}`;
    refuse(
      place,
      'BAD_HORIZONTAL_RANGE',
      `C angles ${c_deg[0]} to ${c_deg[c_deg.length - 1]}`,
      `C angles that hold ${wanted} for symmetry ${symmetry}`,
      'Correct the C angles or the symmetry on line 3.',
    );
  }
  return angles;
}

function unfolded(symmetry: Symmetry, measured: readonly PhotometricPlane[]): readonly PhotometricPlane[] {
  switch (symmetry) {
    case 0:
      return closedCircle(measured);
    case 1:
      return measured;
    case 2:
      return closedCircle(mirrored(measured, 180));
    case 3:
      return closedCircle(mirrored(measured, 90));
    case 4:
      return closedCircle(mirrored(mirrored(measured, 90), 180));
  }
}

function checkGammaRange(gamma_deg: Float64Array, place: Place, warnings: string[]): void {
  const [first, last] = [gamma_deg[0]!, gamma_deg[gamma_deg.length - 1]!];
  if (first < 0 || last > 180) {
    refuse(
      place,
      'BAD_VERTICAL_RANGE',
      `gamma angles ${first} to ${last}`,
      'angles within 0 to 180',
      'Correct the gamma angles, or look for a missing or surplus value before them.',
    );
  }
  if ((first !== 0 && first !== 90) || (last !== 90 && last !== 180)) {
    warnings.push(
      `line ${place.line}: gamma angles ${first} to ${last}; every direction outside them is dark`,
    );
  }
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

interface LampSet {
  readonly count: number;
  readonly absolute: boolean;
  readonly type: string;
  readonly flux_lm: number;
  readonly inputPower_W: number | null;
}

/** Six lines a set: lamps, type, total flux, colour, colour rendering, watts with ballast. */
function readLampSets(lines: LineReader, chosen: number, warnings: string[]): LampSet {
  const sets = nextCount(lines, 'the number of lamp sets', 1);
  if (sets > MAX_LAMP_SETS) {
    refuse(
      lines.place,
      'TOO_LARGE',
      `${sets} as the number of lamp sets`,
      `at most ${MAX_LAMP_SETS}`,
      'Correct the number to what the file holds.',
    );
  }
  if (!Number.isInteger(chosen) || chosen < 0 || chosen >= sets) {
    refuse(
      lines.place,
      'NO_SUCH_LAMP_SET',
      `${sets} lamp sets`,
      `lamp set ${chosen}, counted from 0`,
      `Ask for 0 to ${sets - 1}.`,
    );
  }
  const all = Array.from({ length: sets }, (_, i) => readLampSet(lines, i === chosen, warnings));
  return all[chosen]!;
}

function readLampSet(lines: LineReader, chosen: boolean, warnings: string[]): LampSet {
  const stated = nextNumber(lines, 'the number of lamps');
  const countOdd = !Number.isInteger(stated) || stated === 0;
  if (chosen && countOdd) {
    warnings.push(`line ${lines.place.line}: ${stated} as the number of lamps; taken as 1`);
  }
  const type = nextLine(lines, 'the lamp type');
  const flux_lm = nextNumber(lines, 'the lamp flux');
  if (chosen && !(flux_lm > 0 && flux_lm <= MAX_LUMENS)) {
    refuse(
      lines.place,
      'BAD_FLUX',
      `${flux_lm} lm as the lamp flux`,
      `more than 0 and at most ${MAX_LUMENS} lm`,
      'Enter the rated flux of the lamp set: the intensities are candela a kilolumen of it.',
    );
  }
  nextLine(lines, 'the colour of the light');
  nextLine(lines, 'the colour rendering');
  const input = nextNumber(lines, 'the input watts');
  return {
    count: countOdd ? 1 : Math.abs(stated),
    absolute: stated < 0,
    type,
    flux_lm,
    inputPower_W: input > 0 ? input : null,
  };
}

function nextLine(lines: LineReader, what: string): string {
  const line = lines.next();
  if (line !== null) return line.trim();
  return refuse(
    lines.place,
    'TOO_FEW_VALUES',
    'the end of the file',
    `a line with ${what}`,
    'The file is cut short: fetch it again.',
  );
}

/** The number on the next line; a line left blank means 0. */
function nextNumber(lines: LineReader, what: string): number {
  const token = nextLine(lines, what);
  return token === '' ? 0 : numberFrom(token.replace(',', '.'), lines.place, what);
}

function nextCount(lines: LineReader, what: string, minimum: number): number {
  return checkedCount(nextNumber(lines, what), minimum, lines.place, what);
}
