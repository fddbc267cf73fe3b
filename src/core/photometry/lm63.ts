/**
 * Reader of ANSI/IESNA LM-63 photometric files, editions 1986, 1991, 1995, 2002 and 2019.
 *
 * I = value · candela multiplier · ballast factor, and in 1986 and 1991 also · ballast-lamp photometric factor. The
 * same field is "future use" in 1995 and 2002 and the file generation type in 2019, and multiplies nothing there
 * (LM-63-2019; Ashdown, Parsing the IESNA LM-63 Photometric Data File, 1998).
 * Horizontal angles run counter-clockwise in type C and clockwise in types A and B, seen from above (LM-63-2002 § 3).
 */
import { usableText } from './file-text.ts';
import { type Lm63Edition, radiometricWarnings, readLm63Header } from './lm63-header.ts';
import { NumberReader } from './number-reader.ts';
import type { Place } from './number-token.ts';
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
import type { LampTilt } from './tilt.ts';

type Goniometry = 'A' | 'B' | 'C';

/** The ballast line's three numbers stand between the photometric line and the angles. */
const BALLAST_VALUES = 3;
const METRES_PER_FOOT = 0.3048;
const MAX_LUMENS = 1e12;

/**
 * The content of an LM-63 file, symmetry unfolded, in candela.
 * @param file its name, for messages
 * @throws PhotometryError where the file cannot be used as light
 */
export function readLm63(file: string, text: string): PhotometricFile {
  const bare = usableText(file, text);
  const header = readLm63Header(file, bare);
  const reader = new NumberReader(file, bare, header.offset, header.line, 'comma-separates');
  const warnings = [...header.warnings, ...radiometricWarnings(header.keywords)];

  const tilt = header.tilt === 'INCLUDE' ? readTilt(reader) : null;
  const line = readPhotometricLine(reader, warnings);
  const needs = `3 of the ballast line, ${line.verticals} vertical and ${line.horizontals} horizontal angles, and ${line.horizontals} x ${line.verticals} candela`;
  const needed = BALLAST_VALUES + line.verticals + line.horizontals + line.horizontals * line.verticals;
  const surplus = checkValuesAhead(reader, needed, line.place.line, needs);
  const ballast = readBallastLine(reader, header.edition, warnings);

  const vertical_deg = readAngles(reader, line.verticals, 'vertical angle');
  checkVerticalRange(line.goniometry, vertical_deg, reader.place, warnings);
  const horizontal_deg = readAngles(reader, line.horizontals, 'horizontal angle');
  const horizontalPlace = reader.place;
  const measured = Array.from(horizontal_deg, (angle_deg) => ({
    horizontal_deg: angle_deg,
    candela: readPlane(reader, line.verticals, line.multiplier * ballast.factor),
  }));
  const planes =
    line.goniometry === 'C'
      ? unfoldedTypeC(measured, horizontalPlace, warnings)
      : unfoldedTypeAB(measured, horizontalPlace, warnings);
  if (line.goniometry === 'C') warnings.push(...poleWarnings(vertical_deg, planes));

  return {
    format: 'LM-63',
    edition: header.edition,
    keywords: header.keywords,
    lampCount: line.lampCount,
    lampLumens_lm: line.lampLumens_lm,
    inputPower_W: ballast.inputPower_W,
    opening: line.opening,
    distribution: tableFrom(line.goniometry, vertical_deg, planes, reader.place),
    tilt,
    measurementTilt_deg: 0,
    warnings: [...warnings, ...surplusWarning(surplus)],
  };
}

interface PhotometricLine {
  readonly place: Place;
  readonly lampCount: number;
  readonly lampLumens_lm: number | null;
  readonly multiplier: number;
  readonly verticals: number;
  readonly horizontals: number;
  readonly goniometry: Goniometry;
  readonly opening: LuminousOpening;
}

function readPhotometricLine(reader: NumberReader, warnings: string[]): PhotometricLine {
  const lampCount = readLampCount(reader, warnings);
  const lumensPerLamp = readLumensPerLamp(reader, warnings);
  const multiplier = readMultiplier(reader, 'the candela multiplier');
  const verticals = checkedCount(
    reader.next('the number of vertical angles'),
    2,
    reader.place,
    'the number of vertical angles',
  );
  const horizontals = checkedCount(
    reader.next('the number of horizontal angles'),
    1,
    reader.place,
    'the number of horizontal angles',
  );
  checkTableSize(horizontals, verticals, reader.place);
  const place = reader.place;
  return {
    place,
    lampCount,
    lampLumens_lm: lumensPerLamp === null ? null : lampCount * lumensPerLamp,
    multiplier,
    verticals,
    horizontals,
    goniometry: readGoniometry(reader),
    opening: readOpening(reader),
  };
}

function readLampCount(reader: NumberReader, warnings: string[]): number {
  const count = reader.next('the number of lamps');
  if (Number.isInteger(count) && count >= 1 && count <= MAX_LUMENS) return count;
  warnings.push(`line ${reader.place.line}: ${count} as the number of lamps; taken as 1`);
  return 1;
}

function readLumensPerLamp(reader: NumberReader, warnings: string[]): number | null {
  const lumens = reader.next('the lumens per lamp');
  if (lumens > 0 && lumens <= MAX_LUMENS) return lumens;
  if (lumens !== -1) {
    warnings.push(
      `line ${reader.place.line}: ${lumens} as the lumens per lamp; taken as absolute photometry`,
    );
  }
  return null;
}

function readMultiplier(reader: NumberReader, what: string): number {
  const multiplier = reader.next(what);
  if (multiplier > 0) return multiplier;
  return refuse(
    reader.place,
    'BAD_MULTIPLIER',
    `${multiplier} as ${what}`,
    'a number above zero',
    'Write 1 if the candela are already absolute.',
  );
}

function readGoniometry(reader: NumberReader): Goniometry {
  const code = reader.next('the photometric type');
  if (code === 1) return 'C';
  if (code === 2) return 'B';
  if (code === 3) return 'A';
  return refuse(
    reader.place,
    'BAD_TYPE',
    `${code} as the photometric type`,
    '1 (type C), 2 (type B) or 3 (type A)',
    'Correct the type, or look for a missing or surplus value before it.',
  );
}

function readOpening(reader: NumberReader): LuminousOpening {
  const units = reader.next('the units type');
  if (units !== 1 && units !== 2) {
    refuse(
      reader.place,
      'BAD_UNITS',
      `${units} as the units type`,
      '1 (feet) or 2 (metres)',
      'Correct the units, or look for a missing or surplus value before it.',
    );
  }
  const metres = units === 1 ? METRES_PER_FOOT : 1;
  const [width, length, height] = [
    reader.next('the opening width'),
    reader.next('the opening length'),
    reader.next('the opening height'),
  ];
  const shape = openingShape(width, length, height);
  return {
    shape,
    width_m: Math.abs(width) * metres,
    length_m: Math.abs(shape === 'circle' ? width : length) * metres,
    height_m: Math.abs(height) * metres,
  };
}

/** Negative sizes are diameters: a circle is (−d, 0, 0) until 1995 and (−d, −d, 0) from 2002 on; both are read in all. */
function openingShape(width: number, length: number, height: number): LuminousOpening['shape'] {
  if (width === 0 && length === 0 && height === 0) return 'point';
  if (height < 0) return 'other';
  if (width > 0 && length > 0) return 'rectangle';
  return width < 0 && (length === 0 || length === width) ? 'circle' : 'other';
}

function readBallastLine(
  reader: NumberReader,
  edition: Lm63Edition,
  warnings: string[],
): { readonly factor: number; readonly inputPower_W: number | null } {
  const ballast = readMultiplier(reader, 'the ballast factor');
  const secondIsFactor = edition <= 1991;
  const second = secondIsFactor
    ? readMultiplier(reader, 'the ballast-lamp photometric factor')
    : reader.next('the number after the ballast factor');
  if (!secondIsFactor && edition < 2019 && second !== 1) {
    warnings.push(
      `line ${reader.place.line}: ${second} after the ballast factor, where LM-63-${edition} keeps a 1; not used`,
    );
  }
  const input = reader.next('the input watts');
  if (input < 0) warnings.push(`line ${reader.place.line}: ${input} as the input watts; not used`);
  return { factor: secondIsFactor ? ballast * second : ballast, inputPower_W: input > 0 ? input : null };
}

/** @throws PhotometryError TILT_SHORT where the block does not hold the pairs it announces, BAD_TILT */
function readTilt(reader: NumberReader): LampTilt {
  const geometry = reader.next('the lamp-to-luminaire geometry');
  if (geometry !== 1 && geometry !== 2 && geometry !== 3) {
    refuse(
      reader.place,
      'BAD_TILT',
      `${geometry} as the lamp-to-luminaire geometry`,
      '1, 2 or 3',
      'Correct it, or write TILT=NONE and leave the tilt block out.',
    );
  }
  const pairs = checkedCount(
    reader.next('the number of tilt pairs'),
    1,
    reader.place,
    'the number of tilt pairs',
  );
  const countPlace = reader.place;
  if (reader.ahead().count < 2 * pairs) refuseShortTilt(countPlace, pairs, 'the end of the file');
  const angles_deg = new Float64Array(pairs);
  for (let i = 0; i < pairs; i++) {
    const angle = reader.next('a tilt angle');
    const increases = i === 0 ? angle >= 0 : angle > angles_deg[i - 1]!;
    if (!increases || angle > 180) refuseShortTilt(reader.place, pairs, `${angle} as tilt angle ${i + 1}`);
    angles_deg[i] = angle;
  }
  const factors = new Float64Array(pairs);
  for (let i = 0; i < pairs; i++) {
    const factor = reader.next('a tilt factor');
    if (factor < 0) refuseShortTilt(reader.place, pairs, `${factor} as tilt factor ${i + 1}`);
    factors[i] = factor;
  }
  return { geometry, angles_deg, factors };
}

function refuseShortTilt(place: Place, pairs: number, found: string): never {
  return refuse(
    place,
    'TILT_SHORT',
    found,
    `${pairs} tilt angles, increasing from 0 to at most 180, then ${pairs} factors of 0 or more`,
    'Correct the number of tilt pairs, or complete the tilt block.',
  );
}

/**
 * Type C files state a hemisphere or the sphere; types A and B may state a part of the front (LM-63 asks for −90 or
 * 0 to 90, but floodlights are often measured less far), and what lies outside it is dark.
 */
function checkVerticalRange(
  goniometry: Goniometry,
  vertical_deg: Float64Array,
  place: Place,
  warnings: string[],
): void {
  const [first, last] = [vertical_deg[0]!, vertical_deg[vertical_deg.length - 1]!];
  const range = `${first} to ${last}`;
  if (goniometry === 'C') {
    if ((first === 0 && (last === 90 || last === 180)) || (first === 90 && last === 180)) return;
    refuse(
      place,
      'BAD_VERTICAL_RANGE',
      `vertical angles ${range}`,
      '0 to 90, 90 to 180 or 0 to 180 for type C',
      'Add the missing angles (with 0 cd where it is dark), or correct the photometric type.',
    );
  }
  if (first < -90 || last > 90) {
    refuse(
      place,
      'BAD_VERTICAL_RANGE',
      `vertical angles ${range}`,
      `angles within -90 to 90 for type ${goniometry}`,
      'Correct the angles or the photometric type: only type C reaches 180.',
    );
  }
  if (first !== -90 || last !== 90) {
    warnings.push(`line ${place.line}: vertical angles ${range}; every direction outside them is dark`);
  }
}

/** LM-63: the last horizontal angle tells the symmetry. */
function unfoldedTypeC(
  measured: readonly PhotometricPlane[],
  place: Place,
  warnings: string[],
): readonly PhotometricPlane[] {
  const first = measured[0]!.horizontal_deg;
  const last = measured[measured.length - 1]!.horizontal_deg;
  if (measured.length === 1) {
    if (first !== 0) warnings.push(`line ${place.line}: the only plane stands at ${first}; used all round`);
    return [{ horizontal_deg: 0, candela: measured[0]!.candela }];
  }
  if (first === 0 && last === 90) return closedCircle(mirrored(mirrored(measured, 90), 180));
  if (first === 0 && last === 180) return closedCircle(mirrored(measured, 180));
  if (first === 90 && last === 270) return closedCircle(mirrored(measured, 270));
  if (first === 0 && last > 180 && last <= 360) {
    warnings.push(...gapWarning(measured));
    return closedCircle(measured);
  }
  return refuse(
    place,
    'BAD_HORIZONTAL_RANGE',
    `horizontal angles ${first} to ${last}`,
    '0 alone, 0 to 90, 0 to 180, 90 to 270, or 0 to more than 180 and at most 360 for type C',
    'Add the missing planes, or correct the photometric type.',
  );
}

/** From 0 on the two sides are alike (LM-63); otherwise as measured, dark outside. */
function unfoldedTypeAB(
  measured: readonly PhotometricPlane[],
  place: Place,
  warnings: string[],
): readonly PhotometricPlane[] {
  const first = measured[0]!.horizontal_deg;
  const last = measured[measured.length - 1]!.horizontal_deg;
  if (measured.length === 1 || first < -90 || first > 0 || last > 90 || last <= 0) {
    refuse(
      place,
      'BAD_HORIZONTAL_RANGE',
      `horizontal angles ${first} to ${last}`,
      '-90 to 90, or 0 to 90 for a symmetrical lamp, in types A and B',
      'Correct the angles or the photometric type.',
    );
  }
  if (last !== 90 || (first !== 0 && first !== -90)) {
    warnings.push(
      `line ${place.line}: horizontal angles ${first} to ${last}; every direction outside them is dark`,
    );
  }
  return first === 0 ? mirrored(measured, 0) : measured;
}
