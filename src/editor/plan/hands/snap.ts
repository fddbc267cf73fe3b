import type { Flat } from '../drawing/projection.ts';

/** A line that something caught on: `across` stands upright on the sheet at u, `down` lies level at v. */
export interface Guide {
  readonly axis: 'across' | 'down';
  readonly at_m: number;
}

export interface Snapped {
  readonly du_m: number;
  readonly dv_m: number;
  readonly guides: readonly Guide[];
}

/** What can be caught on: other things' coordinates in rising order, and the grid. */
export interface SnapTargets {
  readonly us: readonly number[];
  readonly vs: readonly number[];
  /** Null for none. */
  readonly grid_m: number | null;
}

export function snapTargets(places: readonly Flat[], grid_m: number | null): SnapTargets {
  const rising = (axis: 0 | 1) => places.map((place) => place[axis]).sort((a, b) => a - b);
  return { us: rising(0), vs: rising(1), grid_m };
}

/**
 * A move of things at `anchors`, the one in hand first, bent onto what lies within `reach_m`: a line of another thing for any of
 * them, else the grid for the one in hand, else whole centimetres. Each coordinate by itself.
 */
export function snapMove(
  anchors: readonly Flat[],
  du_m: number,
  dv_m: number,
  targets: SnapTargets,
  reach_m: number,
): Snapped {
  const across = snapAxis(
    anchors.map(([u]) => u),
    du_m,
    targets.us,
    targets.grid_m,
    reach_m,
  );
  const down = snapAxis(
    anchors.map(([, v]) => v),
    dv_m,
    targets.vs,
    targets.grid_m,
    reach_m,
  );
  return {
    du_m: across.move_m,
    dv_m: down.move_m,
    guides: [
      ...(across.line_m === null ? [] : [{ axis: 'across' as const, at_m: across.line_m }]),
      ...(down.line_m === null ? [] : [{ axis: 'down' as const, at_m: down.line_m }]),
    ],
  };
}

/** The move as it was made, the one in hand to whole centimetres. */
export function freeMove([first]: readonly Flat[], du_m: number, dv_m: number): Snapped {
  const [u, v] = first ?? [0, 0];
  return { du_m: centimetres(u + du_m) - u, dv_m: centimetres(v + dv_m) - v, guides: [] };
}

function snapAxis(
  anchors: readonly number[],
  move_m: number,
  lines: readonly number[],
  grid_m: number | null,
  reach_m: number,
): { readonly move_m: number; readonly line_m: number | null } {
  let best: { move_m: number; line_m: number } | null = null;
  let least_m = reach_m;
  for (const anchor of anchors) {
    const line_m = nearest(lines, anchor + move_m);
    if (line_m === null) continue;
    const off_m = Math.abs(line_m - anchor - move_m);
    if (off_m > least_m || (best && off_m === least_m)) continue;
    least_m = off_m;
    best = { move_m: line_m - anchor, line_m };
  }
  if (best) return best;
  const inHand = anchors[0] ?? 0;
  const wanted = inHand + move_m;
  if (grid_m !== null) {
    const onGrid = Math.round(wanted / grid_m) * grid_m;
    if (Math.abs(onGrid - wanted) <= reach_m) return { move_m: onGrid - inHand, line_m: null };
  }
  return { move_m: centimetres(wanted) - inHand, line_m: null };
}

/** Of values in rising order; null of none. */
function nearest(rising: readonly number[], value: number): number | null {
  let [low, high] = [0, rising.length];
  while (low < high) {
    const middle = (low + high) >> 1;
    if (rising[middle]! < value) low = middle + 1;
    else high = middle;
  }
  const [before, after] = [rising[low - 1], rising[low]];
  if (before === undefined) return after ?? null;
  if (after === undefined) return before;
  return value - before <= after - value ? before : after;
}

function centimetres(length_m: number): number {
  return Math.round(length_m * 100) / 100;
}
