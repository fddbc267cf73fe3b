import type { LineReader } from './line-reader.ts';
import { numberFrom } from './number-token.ts';
import { refuse } from './photometry-error.ts';
import { checkedCount } from './table-reading.ts';

/**
 * The next line, trimmed; `what` it should hold, for the message.
 * @throws PhotometryError TOO_FEW_VALUES, LINE_TOO_LONG
 */
export function nextLine(lines: LineReader, what: string): string {
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

/**
 * The number on the next line; a line left blank means 0.
 * @throws PhotometryError NOT_A_NUMBER, NOT_FINITE and what `nextLine` throws
 */
export function nextNumber(lines: LineReader, what: string): number {
  const token = nextLine(lines, what);
  return token === '' ? 0 : numberFrom(token.replace(',', '.'), lines.place, what);
}

/** @throws PhotometryError BAD_COUNT, TOO_LARGE and what `nextNumber` throws */
export function nextCount(lines: LineReader, what: string, minimum: number): number {
  return checkedCount(nextNumber(lines, what), minimum, lines.place, what);
}
