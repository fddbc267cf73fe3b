import type { TablesSheet } from '../paperwork/tables-sheet.ts';
import { textTable } from './text-table.ts';

/** A sheet of tables and sentences for a terminal or a sheet of paper on the wall. */
export function tablesSheetText(sheet: TablesSheet): string {
  const tables = sheet.tables.flatMap(({ rows, leftColumns }) => [textTable(rows, leftColumns), '']);
  const findings = sheet.findings.length > 0 ? [...sheet.findings, ''] : [];
  return [sheet.title, sheet.heading, '', ...tables, ...findings, ...sheet.footer].join('\n');
}
