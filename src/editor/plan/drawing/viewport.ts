import type { Flat } from './projection.ts';

/** Which part of a sheet is on screen: what lies in the middle, and how many pixels a metre has. */
export interface Viewport {
  readonly centre_m: Flat;
  readonly scale_px_m: number;
}

export interface SheetSize {
  readonly width_px: number;
  readonly height_px: number;
}

export interface FlatBounds {
  readonly low_m: Flat;
  readonly high_m: Flat;
}

/** From 1 km across a tablet down to a millimetre a pixel. */
const LEAST_px_m = 0.5;
const MOST_px_m = 1000;

export function onScreen({ centre_m, scale_px_m }: Viewport, size: SheetSize, [u, v]: Flat): Flat {
  return [
    size.width_px / 2 + (u - centre_m[0]) * scale_px_m,
    size.height_px / 2 + (v - centre_m[1]) * scale_px_m,
  ];
}

export function onSheet({ centre_m, scale_px_m }: Viewport, size: SheetSize, [x, y]: Flat): Flat {
  return [
    centre_m[0] + (x - size.width_px / 2) / scale_px_m,
    centre_m[1] + (y - size.height_px / 2) / scale_px_m,
  ];
}

/** Moved as if the paper had been dragged by so many pixels. */
export function panned({ centre_m, scale_px_m }: Viewport, dx_px: number, dy_px: number): Viewport {
  return { scale_px_m, centre_m: [centre_m[0] - dx_px / scale_px_m, centre_m[1] - dy_px / scale_px_m] };
}

/** Magnified by a factor, within what is sensible; what lies under the given pixel stays under it. */
export function zoomed(view: Viewport, size: SheetSize, at_px: Flat, factor: number): Viewport {
  const scale_px_m = Math.min(MOST_px_m, Math.max(LEAST_px_m, view.scale_px_m * factor));
  const [u, v] = onSheet(view, size, at_px);
  return {
    scale_px_m,
    centre_m: [
      u - (at_px[0] - size.width_px / 2) / scale_px_m,
      v - (at_px[1] - size.height_px / 2) / scale_px_m,
    ],
  };
}

export function boundsOf(points: readonly Flat[]): FlatBounds | null {
  if (points.length === 0) return null;
  let [lowU, lowV, highU, highV] = [Infinity, Infinity, -Infinity, -Infinity];
  for (const [u, v] of points) {
    lowU = Math.min(lowU, u);
    lowV = Math.min(lowV, v);
    highU = Math.max(highU, u);
    highV = Math.max(highV, v);
  }
  return { low_m: [lowU, lowV], high_m: [highU, highV] };
}

/** Signs reach so far beyond the points that they stand for, names further to the right: less on a small sheet. */
const MARGIN_px = 56;
const MARGIN_SHARE = 0.09;
/** Over and under them, beside the labels of the grid, there is always room for a name. */
const LEAST_DOWN_px = 34;
const NAMES_px = 110;
const NAMES_SHARE = 0.16;
/** One point alone is shown with this much about it. */
const LEAST_EXTENT_m = 4;

/** The bounds as large as they go on the sheet, with a margin. */
export function fitted({ low_m, high_m }: FlatBounds, size: SheetSize): Viewport {
  const extent = (axis: 0 | 1) => Math.max(LEAST_EXTENT_m, high_m[axis] - low_m[axis]);
  const within = (length_px: number, least_px = 0) =>
    length_px - 2 * Math.max(least_px, Math.min(MARGIN_px, MARGIN_SHARE * length_px));
  const names_px = Math.min(NAMES_px, NAMES_SHARE * size.width_px);
  const across_px = within(size.width_px) - names_px;
  const down_px = Math.max(1, within(size.height_px, LEAST_DOWN_px));
  const wanted = Math.min(across_px / extent(0), down_px / extent(1));
  const scale_px_m = Math.min(MOST_px_m, Math.max(LEAST_px_m, wanted));
  const names_m = names_px / scale_px_m;
  return {
    centre_m: [(low_m[0] + high_m[0] + names_m) / 2, (low_m[1] + high_m[1]) / 2],
    scale_px_m,
  };
}

/** What of the sheet can be seen. */
export function visible(view: Viewport, size: SheetSize): FlatBounds {
  return {
    low_m: onSheet(view, size, [0, 0]),
    high_m: onSheet(view, size, [size.width_px, size.height_px]),
  };
}

export function holds({ low_m, high_m }: FlatBounds, [u, v]: Flat): boolean {
  return u >= low_m[0] && u <= high_m[0] && v >= low_m[1] && v <= high_m[1];
}
