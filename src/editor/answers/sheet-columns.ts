/** One column of a sheet's table: its heading and a cell for every row. */
export interface SheetColumn {
  readonly key: string;
  readonly heading: string;
  readonly cells: readonly string[];
  /** Words stand to the left and break; figures to the right, whole. */
  readonly words: boolean;
}

/** Columns of a table, given with its head first; those that say nothing in any row are left out. */
export function columnsOf(rows: readonly (readonly string[])[], leftColumns: number): SheetColumn[] {
  return withWords(allColumns(rows, leftColumns));
}

/**
 * The same for a form in which each has its heading beside it: a column without a heading says more of the one before it, such
 * as per cent beside volts, and is joined to it.
 */
export function joinedColumnsOf(rows: readonly (readonly string[])[], leftColumns: number): SheetColumn[] {
  const joined: SheetColumn[] = [];
  for (const column of allColumns(rows, leftColumns)) {
    const before = joined.at(-1);
    if (column.heading !== '' || !before || joined.length === 1) joined.push(column);
    else
      joined[joined.length - 1] = {
        ...before,
        cells: before.cells.map((text, i) => [text, column.cells[i]].filter(Boolean).join(', ')),
      };
  }
  return withWords(joined);
}

function allColumns(rows: readonly (readonly string[])[], leftColumns: number): SheetColumn[] {
  const [head = [], ...body] = rows;
  return head.map((heading, i) => ({
    key: `${i}`,
    heading,
    cells: body.map((cells) => cells[i] ?? ''),
    words: i < leftColumns,
  }));
}

/** The first names the row, and is always there. */
function withWords(columns: readonly SheetColumn[]): SheetColumn[] {
  return columns.filter(({ cells }, i) => i === 0 || cells.some((text) => text !== ''));
}

/** Long words break into lines, but not into narrower ones than this. */
const LEAST_WORDS_px = 96;

type TextWidth_px = (text: string) => number;

/** The narrowest that columns can be laid out side by side, px: words break between words, figures do not break. */
export function leastWidth_px(
  columns: readonly SheetColumn[],
  textWidth_px: TextWidth_px,
  padding_px: number,
): number {
  return columns.reduce((sum, column) => sum + padding_px + leastColumn_px(column, textWidth_px), 0);
}

/** The narrowest that one column can be, px. */
export function leastColumn_px({ heading, cells, words }: SheetColumn, textWidth_px: TextWidth_px): number {
  const widest = (texts: readonly string[]) => Math.max(0, ...texts.map(textWidth_px));
  const wordsOf = (texts: readonly string[]) => texts.flatMap((text) => text.split(' '));
  const inCells = words
    ? Math.max(widest(wordsOf(cells)), Math.min(LEAST_WORDS_px, widest(cells)))
    : widest(cells);
  return Math.max(widest(wordsOf([heading])), inCells);
}

/** More letters than this have a line of their own beside their heading. */
const LONG = { cell: 12, heading: 12 };

/** Whether a column of words or of long figures takes a line of its own, where each has its heading beside it. */
export function isLong({ heading, cells, words }: SheetColumn): boolean {
  return words || heading.length > LONG.heading || cells.some((text) => text.length > LONG.cell);
}
