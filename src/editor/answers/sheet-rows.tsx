import { Fragment, type ReactNode } from 'react';

interface SheetRowsProps {
  readonly caption: string;
  readonly captionShown?: boolean;
  /** The head first. */
  readonly rows: readonly (readonly string[])[];
  /** So many columns are words and stand to the left. */
  readonly leftColumns: number;
  /** What can be done about a row, beside its name, where a narrow panel does not hide it; rows count from 0. */
  readonly action?: (row: number) => ReactNode;
  /** Rows that say no. */
  readonly isFault?: (row: number) => boolean;
}

/** A table of a sheet, in its words and digits. */
export function SheetRows({
  caption,
  captionShown = false,
  rows,
  leftColumns,
  action,
  isFault,
}: SheetRowsProps) {
  const [head, ...body] = rows;
  if (!head || body.length === 0) return null;
  // Neither columns nor rows have names that differ; both stand in a fixed order.
  const columns = head.map((text, i) => ({ key: `${i}`, text, side: i < leftColumns ? '' : 'figure' }));
  const lines = body.map((cells, row) => ({ key: `${row}`, cells, row }));
  return (
    // biome-ignore lint/a11y/noNoninteractiveTabindex: what scrolls has to be reached by keyboard
    <section className="answer-scroll" tabIndex={0} aria-label={caption}>
      <table className="answer-table">
        <caption className={captionShown ? '' : 'out-of-sight'}>{caption}</caption>
        <thead>
          <tr>
            {columns.map(({ key, text, side }, i) => (
              <Fragment key={key}>
                <th scope="col" className={side}>
                  {text === '' ? <span className="out-of-sight">no heading</span> : text}
                </th>
                {i === 0 && action && (
                  <th scope="col">
                    <span className="out-of-sight">What can be done</span>
                  </th>
                )}
              </Fragment>
            ))}
          </tr>
        </thead>
        <tbody>
          {lines.map(({ key, cells, row }) => (
            <tr key={key} className={isFault?.(row) ? 'fault' : ''}>
              <th scope="row" className={columns[0]!.side}>
                <bdi>{cells[0]}</bdi>
              </th>
              {action && <td className="row-action">{action(row)}</td>}
              {columns.slice(1).map((column, i) => (
                <td key={column.key} className={column.side}>
                  <bdi>{cells[i + 1]}</bdi>
                </td>
              ))}
            </tr>
          ))}
        </tbody>
      </table>
    </section>
  );
}
