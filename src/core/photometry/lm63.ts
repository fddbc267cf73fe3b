/**
 * Reader of ANSI/IESNA LM-63 photometric files, editions 1986, 1991, 1995, 2002 and 2019.
 *
 * I = value · candela multiplier · ballast factor, and in 1986 and 1991 also · ballast-lamp photometric factor. The
 * same field is "future use" in 1995 and 2002 and the file generation type in 2019, and multiplies nothing there
 * (LM-63-2019; Ashdown, Parsing the IESNA LM-63 Photometric Data File, 1998).
 * Horizontal angles run counter-clockwise in type C and clockwise in types A and B, seen from above (LM-63-2002 § 3).
 */
import { usableText } from './file-text.ts';
import { checkVerticalRange, unfoldedTypeAB, unfoldedTypeC } from './lm63-angles.ts';
import { radiometricWarnings, readLm63Header } from './lm63-header.ts';
import { readBallastLine, readPhotometricLine } from './lm63-lines.ts';
import { readLm63Tilt } from './lm63-tilt.ts';
import { NumberReader } from './number-reader.ts';
import type { PhotometricFile } from './photometric-data.ts';
import {
  checkValuesAhead,
  poleWarnings,
  readAngles,
  readPlane,
  surplusWarning,
  tableFrom,
} from './table-reading.ts';

/** The ballast line's three numbers stand between the photometric line and the angles. */
const BALLAST_VALUES = 3;

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

  const tilt = header.tilt === 'INCLUDE' ? readLm63Tilt(reader) : null;
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
