import { checkSides } from '../../core/picture/picture.ts';

/**
 * A picture file in the making that takes the picture from the top, some rows at a time, so that a large one is never whole
 * in memory: what is kept is packed. What the file says about the picture is given last, for only then is it all known.
 */
export interface RowWriter<Values, Words> {
  /** The next rows, three values a pixel. RangeError unless they are whole rows, and no more than the picture still has. */
  rows(values: Values): void;
  /** The parts of the file, in order. RangeError before all rows are there, and for words that the file cannot hold. */
  finish(words: Words): Uint8Array<ArrayBuffer>[];
}

/** Counts the rows of a picture that have come. */
export interface RowCount {
  /** How many rows these values are. RangeError unless they are whole rows that the picture still has room for. */
  take(values: ArrayLike<number>): number;
  /** RangeError while rows are missing. */
  checkWhole(): void;
}

/** RangeError unless both sides are whole numbers above zero. */
export function newRowCount(width_px: number, height_px: number): RowCount {
  checkSides(width_px, height_px);
  let there = 0;
  return {
    take(values) {
      const rows = values.length / (3 * width_px);
      if (!Number.isInteger(rows)) {
        throw new RangeError(
          `${values.length} values are no whole number of rows; a row of ${width_px} px has ${3 * width_px}`,
        );
      }
      if (there + rows > height_px) {
        throw new RangeError(`row ${there + rows} of a picture that is ${height_px} px high`);
      }
      there += rows;
      return rows;
    },
    checkWhole() {
      if (there < height_px)
        throw new RangeError(`${there} of ${height_px} rows are there; give the rest first`);
    },
  };
}
