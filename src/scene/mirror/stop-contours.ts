import { contours } from 'd3-contour';
import { intersection, type PlanPoint, type PlanRegion, rectangle } from './plan.ts';
import { type Lattice, latticePoint } from './traced-region.ts';

/** Where a figure is at least so many stops. */
export interface StopContour {
  readonly atLeast_stops: number;
  readonly region: PlanRegion;
}

/**
 * Contours of a figure that changes gently, straight between the points of a lattice. The edge of a shadow is as coarse as
 * the lattice. Yields after every row.
 */
export function* stopContours(
  lattice: Lattice,
  stopsAt: (x: number, z: number) => number,
  thresholds_stops: readonly number[],
): Generator<number, readonly StopContour[]> {
  const { columns, rows, low, high } = lattice;
  const values: number[] = [];
  for (let row = 0; row < rows; row++) {
    for (let column = 0; column < columns; column++)
      values.push(stopsAt(...latticePoint(lattice, column, row)));
    yield (row + 1) / rows;
  }
  const outlines = contours().size([columns, rows]);
  return thresholds_stops.map((atLeast_stops) => {
    const region = outlines
      .contour(values, atLeast_stops)
      .coordinates.map((polygon) =>
        polygon.map((ring) => ring.map(([a, b]): PlanPoint => latticePoint(lattice, a! - 0.5, b! - 0.5))),
      );
    return { atLeast_stops, region: intersection(region, rectangle(low, high)) };
  });
}
