import type { ExposureSheet } from '../paperwork/exposure-sheet.ts';
import { textTable } from './text-table.ts';

/** So many lamps fit beside each other on a page; more go into further blocks. */
const LAMPS_A_BLOCK = 6;

/** What of the reading comes by way of surfaces and glass, and from the glow of haze. */
const OF_WHICH = ['of it bounce', 'haze'];

/** The exposure sheet for a terminal or a sheet of paper on the wall. */
export function exposureSheetText(sheet: ExposureSheet): string {
  const readings = textTable(
    [
      ['Mark', 'Receptor', sheet.unit, 'Stops', 'Meter', '±', 'Colour', ...(sheet.allLight ? OF_WHICH : [])],
      ...sheet.rows.map((r) => [
        ...[r.name, r.receptor, r.reading, r.stops, r.fNumber, r.plusMinus, r.colour],
        ...(sheet.allLight ? [r.bounce, r.haze] : []),
      ]),
    ],
    2,
  );
  return [sheet.title, sheet.heading, '', readings, ...lampBlocks(sheet), '', ...sheet.footer].join('\n');
}

/** What each lamp puts on each mark: reading, and stops from the camera's zero by itself. */
function lampBlocks(sheet: ExposureSheet): string[] {
  const lamps = sheet.rows[0]?.lamps.map((lamp) => lamp.id) ?? [];
  const blocks: string[] = [];
  for (let first = 0; first < lamps.length; first += LAMPS_A_BLOCK) {
    const last = first + LAMPS_A_BLOCK >= lamps.length;
    const heads = [
      `By lamp, ${sheet.unit} (stops)`,
      ...lamps.slice(first, first + LAMPS_A_BLOCK),
      ...(last ? ['sky'] : []),
    ];
    const rows = sheet.rows.map((row) => [
      row.name,
      ...row.lamps
        .slice(first, first + LAMPS_A_BLOCK)
        .map((lamp) => (lamp.reading === '0' ? '–' : `${lamp.reading} (${lamp.stops})`)),
      ...(last ? [row.sky] : []),
    ]);
    blocks.push('', textTable([heads, ...rows]));
  }
  return blocks;
}
