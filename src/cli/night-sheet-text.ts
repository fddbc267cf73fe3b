import type { NightSheet } from '../paperwork/night-sheet.ts';
import { textTable } from './text-table.ts';

/** The night's sheet for a terminal or a sheet of paper. */
export function nightSheetText(sheet: NightSheet): string {
  return [
    sheet.title,
    sheet.heading,
    '',
    textTable(sheet.twilight),
    '',
    textTable(sheet.hours),
    '',
    ...sheet.findings,
    '',
    ...sheet.footer,
  ].join('\n');
}
