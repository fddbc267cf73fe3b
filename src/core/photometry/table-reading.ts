import type { CandelaTable } from './distribution.ts';
import { MAX_TABLE_VALUES } from './file-text.ts';
import type { NumberReader } from './number-reader.ts';
import type { Place } from './number-token.ts';
import type { PhotometricPlane } from './photometric-plane.ts';
import { refuse } from './photometry-error.ts';

/** Closer angles are a writing fault: no goniometer resolves them, and interpolation would divide by nearly zero. */
const MIN_STEP_DEG = 1e-4;

/** No lamp comes near. */
const MAX_CANDELA = 1e12;

/** Below this the table is dark as far as any exposure goes. */
const MIN_PEAK_CANDELA = 1e-9;

/** Planes that meet at a pole see one direction; beyond this share of the maximum they contradict each other. */
const POLE_DISAGREEMENT = 0.05;

/**
 * A count of at least `minimum`.
 * @throws PhotometryError BAD_COUNT, TOO_LARGE
 */
export function checkedCount(value: number, minimum: number, place: Place, what: string): number {
  if (!Number.isInteger(value) || value < minimum) {
    refuse(
      place,
      'BAD_COUNT',
      `${value} as ${what}`,
      `a whole number, ${minimum} or more`,
      'Correct the count to what the file holds.',
    );
  }
  if (value > MAX_TABLE_VALUES) refuseTooLarge(value, what, place);
  return value;
}

/** @throws PhotometryError TOO_LARGE */
export function checkTableSize(planes: number, angles: number, place: Place): void {
  if (planes * angles > MAX_TABLE_VALUES) refuseTooLarge(planes * angles, 'candela values', place);
}

function refuseTooLarge(count: number, what: string, place: Place): never {
  refuse(
    place,
    'TOO_LARGE',
    `${count} as ${what}`,
    `at most ${MAX_TABLE_VALUES}`,
    'Correct the counts to what the file holds, or thin the angles out.',
  );
}

/**
 * Refuses a file that ends before its counts are met, before anything is read by those counts.
 * @throws PhotometryError TOO_FEW_VALUES
 */
export function checkValuesAhead(
  reader: NumberReader,
  needed: number,
  countsLine: number,
  needs: string,
): number {
  const { count, lastLine } = reader.ahead();
  if (count < needed) {
    refuse(
      { file: reader.place.file, line: lastLine },
      'TOO_FEW_VALUES',
      `the end of the file after ${count} values`,
      `${needed} values (${needs})`,
      `Add what is missing, or correct the counts on line ${countsLine}.`,
    );
  }
  return count - needed;
}

/** @throws PhotometryError ANGLES_NOT_INCREASING and what `NumberReader.next` throws */
export function readAngles(reader: NumberReader, count: number, what: string): Float64Array {
  const angles = new Float64Array(count);
  for (let i = 0; i < count; i++) {
    const angle = reader.next(what);
    if (i > 0 && !(angle - angles[i - 1]! >= MIN_STEP_DEG)) {
      refuse(
        reader.place,
        'ANGLES_NOT_INCREASING',
        `${what} ${angle} after ${angles[i - 1]}`,
        `each larger than the one before by ${MIN_STEP_DEG} degrees or more`,
        'Put the angles in order, each once; if they are in order, a count or a value before them is wrong.',
      );
    }
    angles[i] = angle;
  }
  return angles;
}

/**
 * One plane of candela, `factor` times the figures in the file.
 * @throws PhotometryError NEGATIVE_CANDELA, CANDELA_TOO_LARGE and what `NumberReader.next` throws
 */
export function readPlane(reader: NumberReader, count: number, factor: number): Float64Array {
  const plane = new Float64Array(count);
  for (let v = 0; v < count; v++) {
    const value = reader.next('a candela value');
    if (value < 0) {
      refuse(
        reader.place,
        'NEGATIVE_CANDELA',
        `${value} as a candela value`,
        'zero or more',
        'Set dark directions to 0; if many are negative, the measurement or the file is damaged.',
      );
    }
    const candela = value * factor;
    if (!(candela <= MAX_CANDELA)) {
      refuse(
        reader.place,
        'CANDELA_TOO_LARGE',
        `${candela} cd (${value} times ${factor})`,
        `at most ${MAX_CANDELA} cd`,
        'Check the value and the multipliers: no lamp is that strong.',
      );
    }
    plane[v] = candela;
  }
  return plane;
}

/**
 * Packs whole-turn planes into the table the solver reads.
 * @throws PhotometryError NO_LIGHT
 */
export function tableFrom(
  goniometry: CandelaTable['goniometry'],
  vertical_deg: Float64Array,
  planes: readonly PhotometricPlane[],
  place: Place,
): CandelaTable {
  const size = vertical_deg.length;
  const candela = new Float64Array(planes.length * size);
  planes.forEach((plane, h) => {
    candela.set(plane.candela, h * size);
  });
  const peak = candela.reduce((peak, value) => Math.max(peak, value), 0);
  if (peak < MIN_PEAK_CANDELA) {
    refuse(
      place,
      'NO_LIGHT',
      peak === 0 ? 'zero in every direction' : `at most ${peak} cd in any direction`,
      'light in some direction',
      'Fetch the file again, or check its multipliers.',
    );
  }
  return {
    kind: 'table',
    goniometry,
    vertical_deg,
    horizontal_deg: Float64Array.from(planes, (plane) => plane.horizontal_deg),
    candela,
  };
}

/** What a reader of the file should hear about values left over behind the table. */
export function surplusWarning(surplus: number): string[] {
  if (surplus === 0) return [];
  return [`numbers left over after the last candela value, not used: ${surplus}`];
}

/** Type C planes share the directions γ = 0 and 180: a large difference there hints at a shifted table. */
export function poleWarnings(vertical_deg: Float64Array, planes: readonly PhotometricPlane[]): string[] {
  const peak = planes.reduce((peak, plane) => plane.candela.reduce((m, c) => Math.max(m, c), peak), 0);
  return [0, 180].flatMap((pole_deg) => {
    const v = vertical_deg.indexOf(pole_deg);
    if (v < 0) return [];
    const values = planes.map((plane) => plane.candela[v]!);
    const low = values.reduce((m, c) => Math.min(m, c));
    const high = values.reduce((m, c) => Math.max(m, c));
    if (high - low <= POLE_DISAGREEMENT * peak) return [];
    return [`the planes disagree at vertical angle ${pole_deg}, where they meet: ${low} to ${high} cd`];
  });
}
