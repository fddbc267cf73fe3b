import type { CandelaTable } from './distribution.ts';
import type { Lm63Edition } from './lm63-header.ts';
import type { NumberReader } from './number-reader.ts';
import type { Place } from './number-token.ts';
import type { LuminousOpening } from './photometric-data.ts';
import { refuse } from './photometry-error.ts';
import { checkedCount, checkTableSize } from './table-reading.ts';

const METRES_PER_FOOT = 0.3048;
const MAX_LUMENS = 1e12;

/** What the ten numbers of the photometric line say. */
export interface PhotometricLine {
  /** Where the counts stand. */
  readonly place: Place;
  readonly lampCount: number;
  readonly lampLumens_lm: number | null;
  readonly multiplier: number;
  readonly verticals: number;
  readonly horizontals: number;
  readonly goniometry: CandelaTable['goniometry'];
  readonly opening: LuminousOpening;
}

/**
 * Lamps, lumens a lamp (−1: absolute photometry), candela multiplier, the two counts, photometric type, units, and the
 * three sizes of the opening. What does not touch the light is taken mildly, with a warning.
 * @throws PhotometryError BAD_MULTIPLIER, BAD_COUNT, TOO_LARGE, BAD_TYPE, BAD_UNITS, TOO_FEW_VALUES
 */
export function readPhotometricLine(reader: NumberReader, warnings: string[]): PhotometricLine {
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

function readGoniometry(reader: NumberReader): CandelaTable['goniometry'] {
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

/**
 * Ballast factor, a number whose meaning depends on the edition, input watts.
 * @throws PhotometryError BAD_MULTIPLIER
 */
export function readBallastLine(
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
