import { nextCount, nextLine, nextNumber } from './eulumdat-lines.ts';
import type { LineReader } from './line-reader.ts';
import { refuse } from './photometry-error.ts';

const MAX_LAMP_SETS = 100;
const MAX_LUMENS = 1e12;

/** One of the alternative fittings of a luminaire. */
export interface LampSet {
  readonly count: number;
  readonly absolute: boolean;
  readonly type: string;
  readonly flux_lm: number;
  readonly inputPower_W: number | null;
}

/**
 * The chosen set out of all. Six lines a set: lamps, type, total flux, colour, colour rendering, watts with ballast.
 * @throws PhotometryError BAD_COUNT, TOO_LARGE, NO_SUCH_LAMP_SET, BAD_FLUX
 */
export function readLampSet(lines: LineReader, chosen: number, warnings: string[]): LampSet {
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
  const all = Array.from({ length: sets }, (_, i) => readOneSet(lines, i === chosen, warnings));
  return all[chosen]!;
}

function readOneSet(lines: LineReader, chosen: boolean, warnings: string[]): LampSet {
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
