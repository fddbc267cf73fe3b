import { type CSSProperties, type ReactNode, useMemo, useRef } from 'react';
import { textWidth_px } from '../stop-rule/text-width.ts';
import { useSize } from '../stop-rule/use-size.ts';
import {
  columnsOf,
  isLong,
  joinedColumnsOf,
  leastColumn_px,
  leastWidth_px,
  type SheetColumn,
} from './sheet-columns.ts';

interface SheetRowsProps {
  readonly caption: string;
  readonly captionShown?: boolean;
  /** The head first. */
  readonly rows: readonly (readonly string[])[];
  /** So many columns are words and stand to the left. */
  readonly leftColumns: number;
  /** What can be done about a row, beside its name; rows count from 0. */
  readonly action?: (row: number) => ReactNode;
  /** Rows that say no. */
  readonly isFault?: (row: number) => boolean;
}

/** Longer tables are run down by eye, column by column: they stay tables, and scroll sideways. */
const MOST_RECORDS = 24;
/** As the styles have it: letters, and room round them, in a wide panel and in a narrow one. */
const WIDE = { text_px: 15, padding_px: 16 };
const NARROW = { to_px: 330, text_px: 13.2, padding_px: 8 };
const ACTION_px = 104;
const LEAST_RECORD_CELL_px = 48;

/** A table of a sheet, in its words and digits; where it is too wide for its panel, row by row with a heading at each figure. */
export function SheetRows(props: SheetRowsProps) {
  return props.rows.length > 1 ? <FilledRows {...props} /> : null;
}

function FilledRows({ caption, captionShown = false, rows, leftColumns, action, isFault }: SheetRowsProps) {
  const around = useRef<HTMLElement>(null);
  const { width_px } = useSize(around);
  const columns = useMemo(() => columnsOf(rows, leftColumns), [rows, leftColumns]);
  const joined = useMemo(() => joinedColumnsOf(rows, leftColumns), [rows, leftColumns]);
  const count = rows.length - 1;
  const { text_px, padding_px } = width_px <= NARROW.to_px ? NARROW : WIDE;
  /** Width of a record's cell; null for a table. */
  const cell_px = useMemo(() => {
    const letters_px = (text: string) => textWidth_px(text, 400, text_px);
    const table_px = leastWidth_px(columns, letters_px, padding_px) + (action ? ACTION_px : 0);
    if (width_px === 0 || count > MOST_RECORDS || table_px <= width_px) return null;
    const short = joined.slice(1).filter((column) => !isLong(column));
    return Math.ceil(Math.max(LEAST_RECORD_CELL_px, ...short.map((one) => leastColumn_px(one, letters_px))));
  }, [columns, joined, width_px, count, action, text_px, padding_px]);
  const asRecords = cell_px !== null;
  const shown = asRecords ? joined : columns;
  return (
    // biome-ignore lint/a11y/noNoninteractiveTabindex: what scrolls has to be reached by keyboard
    <section ref={around} className="answer-scroll" tabIndex={0} aria-label={caption}>
      {asRecords && !captionShown && leftColumns > 0 && (
        <p className="quiet" aria-hidden="true">
          {shown[0]!.heading}
        </p>
      )}
      <table
        className={asRecords ? 'answer-table records' : 'answer-table'}
        style={{ '--cell': `${cell_px}px` } as CSSProperties}
      >
        <caption className={captionShown ? '' : 'out-of-sight'}>{caption}</caption>
        <Head columns={shown} acted={action !== undefined} />
        <tbody>
          {rows.slice(1).map((_, row) => (
            <tr
              // biome-ignore lint/suspicious/noArrayIndexKey: rows stand in a fixed order, and names may be alike
              key={row}
              className={isFault?.(row) ? 'fault' : ''}
            >
              <NameCell column={shown[0]!} row={row} headed={asRecords && leftColumns === 0} />
              {action && <td className="row-action">{action(row)}</td>}
              {shown.slice(1).map((column) => (
                <Cell key={column.key} column={column} row={row} headed={asRecords} />
              ))}
            </tr>
          ))}
        </tbody>
      </table>
    </section>
  );
}

function Head({ columns, acted }: { readonly columns: readonly SheetColumn[]; readonly acted: boolean }) {
  const [first, ...others] = columns.map(({ key, heading, words }) => (
    <th key={key} scope="col" className={words ? '' : 'figure'}>
      {heading === '' ? <span className="out-of-sight">no heading</span> : heading}
    </th>
  ));
  return (
    <thead>
      <tr>
        {first}
        {acted && (
          <th scope="col">
            <span className="out-of-sight">What can be done</span>
          </th>
        )}
        {others}
      </tr>
    </thead>
  );
}

interface CellProps {
  readonly column: SheetColumn;
  readonly row: number;
  /** Whether its heading stands at it. */
  readonly headed: boolean;
}

function NameCell({ column, row, headed }: CellProps) {
  return (
    <th scope="row" className={column.words ? '' : 'figure'}>
      {headed && <CellHeading column={column} />}
      <bdi>{column.cells[row]}</bdi>
    </th>
  );
}

function Cell({ column, row, headed }: CellProps) {
  const text = column.cells[row]!;
  return (
    <td
      className={`${column.words ? '' : 'figure'} ${headed && isLong(column) ? 'long' : ''}`}
      data-empty={text === ''}
    >
      {headed && <CellHeading column={column} />}
      <bdi>{text}</bdi>
    </td>
  );
}

/** For the eye: voices have it from the table's head. */
function CellHeading({ column }: { readonly column: SheetColumn }) {
  return (
    <span className="cell-heading" aria-hidden="true">
      {column.heading}{' '}
    </span>
  );
}
