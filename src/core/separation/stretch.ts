import type { EdgeCell } from './edge-cell.ts';

/** A run of neighbouring cells along one part of the body: the piece of outline that is named and judged as one. */
export interface Stretch<Key> {
  readonly key: Key;
  /** Indices of its cells, in their order along the outline. */
  readonly cells: readonly number[];
}

/** Shorter runs are taken into a neighbour: too short for an eye to see them merge. */
const LEAST_CELLS = 3;
/** Longer ones are cut evenly: a tenth of the outline is more than merges all at once. */
const MOST_CELLS = 8;

/** Gathers cells into stretches: neighbours on one ring with the same key. */
export function stretchesOf<Key>(cells: readonly EdgeCell[], keyOf: (cell: EdgeCell) => Key): Stretch<Key>[] {
  const connected: { key: Key; cells: number[] }[][] = [];
  cells.forEach((cell, i) => {
    const before = cells[i - 1];
    const adjoins = before && before.ring === cell.ring && before.index === cell.index - 1;
    const key = keyOf(cell);
    if (!adjoins) connected.push([{ key, cells: [i] }]);
    else {
      const runs = connected.at(-1)!;
      const last = runs.at(-1)!;
      if (last.key === key) last.cells.push(i);
      else runs.push({ key, cells: [i] });
    }
  });
  return connected.flatMap((runs) => joined(runs).flatMap(cut));
}

/** Short runs go to the longer of their neighbours, which keeps its name. */
function joined<Key>(runs: readonly { key: Key; cells: number[] }[]): { key: Key; cells: number[] }[] {
  const left = runs.map(({ key, cells }) => ({ key, cells: [...cells] }));
  for (;;) {
    const short = left.findIndex((run) => run.cells.length < LEAST_CELLS);
    if (short < 0 || left.length === 1) return left;
    const [before, after] = [left[short - 1], left[short + 1]];
    const into = !before || (after && after.cells.length > before.cells.length) ? after! : before;
    const run = left[short]!;
    if (into === before) into.cells.push(...run.cells);
    else into.cells.unshift(...run.cells);
    left.splice(short, 1);
  }
}

function cut<Key>({ key, cells }: { key: Key; cells: number[] }): Stretch<Key>[] {
  const pieces = Math.ceil(cells.length / MOST_CELLS);
  return Array.from({ length: pieces }, (_, p) => ({
    key,
    cells: cells.slice(
      Math.round((p * cells.length) / pieces),
      Math.round(((p + 1) * cells.length) / pieces),
    ),
  }));
}
