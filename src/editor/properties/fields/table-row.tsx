import { memo, useState } from 'react';
import type { Path } from '../../../scene/problems/problem.ts';
import { numberFromText } from '../../figures/number-text.ts';
import { useDesk, useFieldValue } from '../desk.tsx';
import type { TableField } from '../field.ts';
import { FieldRow } from './field-row.tsx';

/** Two columns of figures as text, one row in a line: typed, or pasted from a sheet. */
export const TableRow = memo(function TableRow({
  field,
  at,
}: {
  readonly field: TableField;
  readonly at: Path;
}) {
  const { label, help, columns } = field;
  const desk = useDesk();
  const [draft, setDraft] = useState<string | null>(null);
  const whole = useFieldValue(at);
  const rows = rowsOf(whole, columns);
  const shown = rows.map((row) => row.join('  ')).join('\n');

  const take = () => {
    const typed = draft;
    setDraft(null);
    if (typed === null || typed.trim() === shown.trim()) return;
    const read = tableFromText(typed);
    if (typeof read === 'string') return desk.refuse(`${label}: ${read}`);
    desk.set(at, (old: unknown) => ({
      ...(old as object),
      [String(columns[0].path[0])]: read.map(([x]) => x),
      [String(columns[1].path[0])]: read.map(([, y]) => y),
    }));
  };

  return (
    <FieldRow
      label={label}
      path={at}
      help={help}
      beside={`${columns[0].label}, ${columns[1].label}`}
      layout="wide"
    >
      <textarea
        className="words table-words"
        rows={8}
        aria-label={`${label}: ${columns[0].label} and ${columns[1].label}, a row in each line`}
        spellCheck={false}
        value={draft ?? shown}
        onChange={({ target }) => setDraft(target.value)}
        onBlur={take}
        onKeyDown={(event) => {
          // While figures are typed, undo is the browser's own.
          if (event.ctrlKey || event.metaKey) event.stopPropagation();
          if (event.key === 'Escape') setDraft(null);
        }}
      />
    </FieldRow>
  );
});

function rowsOf(whole: unknown, [first, second]: TableField['columns']): (readonly [number, number])[] {
  const data = Object(whole) as Readonly<Record<string, readonly number[] | undefined>>;
  const xs = data[String(first.path[0])] ?? [];
  const ys = data[String(second.path[0])] ?? [];
  return xs.map((x, i) => [x, ys[i] ?? 0]);
}

/** Two numbers a line, whatever stands between them; what is wrong, in words, where a line has not. */
export function tableFromText(text: string): readonly (readonly [number, number])[] | string {
  const rows: (readonly [number, number])[] = [];
  for (const [index, line] of text.split('\n').entries()) {
    if (line.trim() === '') continue;
    const cells = line.trim().split(/[\s;]+|,\s+|(?<=\.\d+),/);
    const numbers = cells.map((cell) => numberFromText(cell) ?? scientific(cell));
    if (numbers.length !== 2 || numbers.includes(null)) {
      return `line ${index + 1}, “${line.trim().slice(0, 30)}”, is not two numbers.`;
    }
    rows.push([numbers[0]!, numbers[1]!]);
  }
  return rows.length >= 2 ? rows : 'two lines at least, please.';
}

/** As measuring instruments write: 1.2e-3. */
function scientific(text: string): number | null {
  return /^[+-]?\d+(\.\d+)?e[+-]?\d+$/i.test(text) && Number.isFinite(Number(text)) ? Number(text) : null;
}
