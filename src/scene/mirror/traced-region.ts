import { contours } from 'd3-contour';
import type { PlanPoint, PlanRegion } from './plan.ts';
import { intersection, rectangle } from './plan.ts';

/**
 * A region known only by asking point by point, as polygons: asked on a lattice, outlined by marching squares, then every
 * corner of the outline, which lies between two lattice points of which one is in and one out, is moved onto the border by
 * bisection. So the outline is exact where it crosses the lattice and cut straight in between.
 */
export interface Lattice {
  readonly low: PlanPoint;
  readonly high: PlanPoint;
  readonly columns: number;
  readonly rows: number;
}

/** Lattice points on the rectangle's edges, at most `spacing_m` apart. */
export function latticeOver(low: PlanPoint, high: PlanPoint, spacing_m: number): Lattice {
  const points = (from: number, to: number) => Math.max(2, Math.ceil((to - from) / spacing_m - 1e-9) + 1);
  return { low, high, columns: points(low[0], high[0]), rows: points(low[1], high[1]) };
}

/** A place of the lattice in metres; between its points too. */
export function latticePoint({ low, high, columns, rows }: Lattice, column: number, row: number): PlanPoint {
  return [
    low[0] + ((high[0] - low[0]) * column) / (columns - 1),
    low[1] + ((high[1] - low[1]) * row) / (rows - 1),
  ];
}

const BISECTIONS = 3;
/** The first look is at every so many-th point each way. */
const COARSE = 4;

/**
 * Points between four of the first look that agree, and whose neighbours agree, are taken to be like them: what is narrower
 * than four spacings and lies so far from any border may be missed. Yields how far it is, so that whoever waits can go on
 * with something else or give up.
 */
export function* tracedRegion(
  lattice: Lattice,
  holds: (x: number, z: number) => boolean,
): Generator<number, PlanRegion> {
  const { columns, rows } = lattice;
  const values = new Array<number>(columns * rows);
  const asked: number[] = [];
  const ask = (column: number, row: number) => {
    asked.push(row * columns + column);
    return holds(...latticePoint(lattice, column, row)) ? 1 : 0;
  };
  for (const row of everyNth(rows, COARSE)) {
    for (const column of everyNth(columns, COARSE)) values[row * columns + column] = ask(column, row);
    yield ((row + 1) / rows) * COARSE_SHARE;
  }
  for (let step = COARSE / 2; step >= 1; step /= 2) {
    const before = { columns: everyNth(columns, 2 * step), rows: everyNth(rows, 2 * step) };
    const more = 2 * step === COARSE ? 1 : 0;
    const agreed = (column: number, row: number): number | null => {
      const near = neighbours(before.columns, column, more).flatMap((c) =>
        neighbours(before.rows, row, more).map((r) => values[r * columns + c]!),
      );
      return near.every((value) => value === near[0]) ? near[0]! : null;
    };
    for (const row of everyNth(rows, step)) {
      for (const column of everyNth(columns, step))
        values[row * columns + column] ??= agreed(column, row) ?? ask(column, row);
      yield COARSE_SHARE + (row / rows) * (LATTICE_SHARE - COARSE_SHARE);
    }
  }

  // Along a strip that was met only somewhere, whatever was taken to be like its neighbours and is now beside others is asked.
  const known = new Set(asked);
  for (let i = 0; i < asked.length; i++) {
    const at = asked[i]!;
    const column = at % columns;
    const beside = [
      ...(column > 0 ? [at - 1] : []),
      ...(column < columns - 1 ? [at + 1] : []),
      at - columns,
      at + columns,
    ];
    for (const next of beside) {
      if (next < 0 || next >= values.length || known.has(next) || values[next] === values[at]) continue;
      known.add(next);
      values[next] = ask(next % columns, Math.floor(next / columns));
      yield LATTICE_SHARE;
    }
  }

  const outlined = contours().size([columns, rows]).contour(values, 0.5);
  const traced: PlanPoint[][][] = [];
  for (const polygon of outlined.coordinates) {
    const rings: PlanPoint[][] = [];
    for (const ring of polygon) {
      const points: PlanPoint[] = [];
      for (const [a, b] of ring) {
        points.push(onBorder(lattice, values, a! - 0.5, b! - 0.5, holds));
        yield LATTICE_SHARE;
      }
      rings.push(points);
    }
    traced.push(rings);
  }
  return intersection(traced, rectangle(lattice.low, lattice.high));
}

/** 0, n, 2n, … and the last. */
function everyNth(count: number, n: number): number[] {
  const places = Array.from({ length: Math.ceil((count - 1) / n) }, (_, i) => i * n);
  return [...places, count - 1];
}

/** The two places that a point lies between or the one that it is, and so many more to each side. */
function neighbours(places: readonly number[], at: number, more: number): readonly number[] {
  const above = places.findIndex((place) => place >= at);
  const below = places[above] === at ? above : above - 1;
  return places.slice(Math.max(0, below - more), above + more + 1);
}

/** About so much of the work is the lattice, the rest the border. */
const COARSE_SHARE = 0.3;
const LATTICE_SHARE = 0.7;

/** A corner of the outline, half-way between two lattice points, moved to where the region ends between them. */
function onBorder(
  lattice: Lattice,
  values: readonly number[],
  column: number,
  row: number,
  holds: (x: number, z: number) => boolean,
): PlanPoint {
  const { columns, rows } = lattice;
  const [c0, c1] = [Math.floor(column), Math.ceil(column)];
  const [r0, r1] = [Math.floor(row), Math.ceil(row)];
  // Round the lattice all is taken to be out; the rectangle cuts what stands over.
  const inside = c0 >= 0 && r0 >= 0 && c1 < columns && r1 < rows;
  if (!inside) return latticePoint(lattice, column, row);
  const firstHolds = values[r0 * columns + c0]! > 0;
  let [inColumn, inRow, outColumn, outRow] = firstHolds ? [c0, r0, c1, r1] : [c1, r1, c0, r0];
  for (let i = 0; i < BISECTIONS; i++) {
    const [c, r] = [(inColumn + outColumn) / 2, (inRow + outRow) / 2];
    if (holds(...latticePoint(lattice, c, r))) [inColumn, inRow] = [c, r];
    else [outColumn, outRow] = [c, r];
  }
  return latticePoint(lattice, (inColumn + outColumn) / 2, (inRow + outRow) / 2);
}
