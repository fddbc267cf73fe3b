import type { LensSheet } from '../paperwork/lens-sheet.ts';
import { textTable } from './text-table.ts';

/** The lens and framing sheet for a terminal or a sheet of paper. */
export function lensSheetText(sheet: LensSheet): string {
  const tables = [sheet.lamps, sheet.figures, sheet.marks].filter((rows) => rows.length > 1);
  return [
    sheet.title,
    sheet.heading,
    '',
    textTable(sheet.lens, 2),
    ...tables.flatMap((rows) => ['', textTable(rows, rows[0]!.length)]),
    '',
    ...sheet.findings,
    '',
    ...sheet.footer,
  ].join('\n');
}
