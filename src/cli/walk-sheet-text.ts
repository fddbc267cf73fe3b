import type { WalkSheet } from '../paperwork/walk-sheet.ts';
import { textTable } from './text-table.ts';

/** The strip chart for a terminal or a sheet of paper. */
export function walkSheetText(sheet: WalkSheet): string {
  return [
    sheet.title,
    sheet.heading,
    '',
    textTable(sheet.strip, 0),
    '',
    ...sheet.findings,
    '',
    ...sheet.footer,
  ].join('\n');
}
