import stringWidth from 'string-width';

/** Columns of text, the first to the left, the others to the right, two spaces apart, for a terminal or a wall. */
export function textTable(rows: readonly (readonly string[])[], leftColumns = 1): string {
  const widths = (rows[0] ?? []).map((_, c) => Math.max(...rows.map((row) => stringWidth(row[c] ?? ''))));
  return rows
    .map((row) =>
      row
        .map((cell, c) => {
          const padding = ' '.repeat(widths[c]! - stringWidth(cell));
          return c < leftColumns ? cell + padding : padding + cell;
        })
        .join('  ')
        .trimEnd(),
    )
    .join('\n');
}
