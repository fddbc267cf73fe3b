import { describe, expect, it } from 'vitest';
import type { EdgeCell } from '../../../src/core/separation/edge-cell.ts';
import { stretchesOf } from '../../../src/core/separation/stretch.ts';

/** Cells of one ring whose part numbers are given; a gap in `places` is a hidden piece. */
function cellsOf(parts: readonly number[], places = parts.map((_, i) => i), ring = 0): EdgeCell[] {
  return parts.map((part, i) => ({
    ring,
    index: places[i]!,
    ofRing: 40,
    line: [],
    length: 0,
    place: { u: 0.5, v: 0.5 },
    part,
    point_m: [0, 0, 0],
    behind: -1,
  }));
}

const lengths = (cells: readonly EdgeCell[]) =>
  stretchesOf(cells, ({ part }) => part).map(({ key, cells: own }) => [key, own.length]);

describe('stretches of an outline', () => {
  it('are runs along one part', () => {
    expect(lengths(cellsOf([1, 1, 1, 2, 2, 2, 2]))).toEqual([
      [1, 3],
      [2, 4],
    ]);
  });

  it('are broken where a piece is hidden, and between rings', () => {
    expect(lengths(cellsOf([1, 1, 1, 1, 1, 1], [0, 1, 2, 6, 7, 8]))).toEqual([
      [1, 3],
      [1, 3],
    ]);
    expect(lengths([...cellsOf([1, 1, 1]), ...cellsOf([1, 1, 1], [0, 1, 2], 1)])).toHaveLength(2);
  });

  it('take short runs in, into the longer neighbour', () => {
    expect(lengths(cellsOf([1, 1, 1, 2, 3, 3, 3, 3]))).toEqual([
      [1, 3],
      [3, 5],
    ]);
    expect(lengths(cellsOf([5, 5]))).toEqual([[5, 2]]);
  });

  it('cut long runs evenly, and hold every cell once', () => {
    const cells = cellsOf(Array.from({ length: 17 }, () => 4));
    const stretches = stretchesOf(cells, ({ part }) => part);
    expect(stretches.map(({ cells: own }) => own.length)).toEqual([6, 5, 6]);
    expect(stretches.flatMap(({ cells: own }) => own)).toEqual(cells.map((_, i) => i));
  });
});
