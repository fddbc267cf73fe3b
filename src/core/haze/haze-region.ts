import type { Placement } from '../geometry/placement.ts';
import type { Vec3 } from '../math/vec3.ts';

/** A box that haze fills: its middle and axes, and half its size along them. */
export interface HazeRegion {
  readonly placement: Placement;
  readonly halfSize_m: Vec3;
}

/** The parts of a ray that lie in haze: `count` disjoint stretches in order along it, each from `ends[2i]` to `ends[2i + 1]`. */
export interface HazeStretches {
  count: number;
  ends: Float64Array;
  length_m: number;
}

export function newHazeStretches(): HazeStretches {
  return { count: 0, ends: new Float64Array(16), length_m: 0 };
}

/** Finds which parts of 0..D of a ray with a unit direction lie in any of the regions; regions that overlap count once. */
export function hazeAlong(
  regions: readonly HazeRegion[],
  ox: number,
  oy: number,
  oz: number,
  dx: number,
  dy: number,
  dz: number,
  D: number,
  found: HazeStretches,
): void {
  found.count = 0;
  found.length_m = 0;
  if (found.ends.length < 2 * regions.length) found.ends = new Float64Array(4 * regions.length);
  for (let i = 0; i < regions.length; i++) {
    const { placement, halfSize_m } = regions[i]!;
    const { origin_m, x, y, z } = placement;
    const [px, py, pz] = [ox - origin_m[0], oy - origin_m[1], oz - origin_m[2]];
    slab(px * x[0] + py * x[1] + pz * x[2], dx * x[0] + dy * x[1] + dz * x[2], halfSize_m[0], 0, D);
    slab(px * y[0] + py * y[1] + pz * y[2], dx * y[0] + dy * y[1] + dz * y[2], halfSize_m[1], enter, exit);
    slab(px * z[0] + py * z[1] + pz * z[2], dx * z[0] + dy * z[1] + dz * z[2], halfSize_m[2], enter, exit);
    if (exit > enter) include(found, enter, exit);
  }
  for (let i = 0; i < found.count; i++) found.length_m += found.ends[2 * i + 1]! - found.ends[2 * i]!;
}

let enter = 0;
let exit = 0;

/** Cuts from..to down to where |p + t·q| ≤ h; leaves an empty stretch where it nowhere is. */
function slab(p: number, q: number, h: number, from: number, to: number): void {
  if (q === 0) {
    enter = from;
    exit = Math.abs(p) > h ? from : to;
    return;
  }
  const reach = q > 0 ? h : -h;
  enter = Math.max(from, (-reach - p) / q);
  exit = Math.min(to, (reach - p) / q);
}

/** Adds from..to to the stretches, in order, joined with those that it touches. */
function include(found: HazeStretches, from: number, to: number): void {
  const { ends } = found;
  let at = 0;
  while (at < found.count && ends[2 * at + 1]! < from) at++;
  let past = at;
  while (past < found.count && ends[2 * past]! <= to) past++;
  const start = past > at ? Math.min(from, ends[2 * at]!) : from;
  const end = past > at ? Math.max(to, ends[2 * past - 1]!) : to;
  ends.copyWithin(2 * (at + 1), 2 * past, 2 * found.count);
  ends[2 * at] = start;
  ends[2 * at + 1] = end;
  found.count += 1 - (past - at);
}

/** How much of 0..t lies in the stretches. */
export function hazedUpTo_m({ count, ends }: HazeStretches, t: number): number {
  let length = 0;
  for (let i = 0; i < count; i++) {
    const from = ends[2 * i]!;
    if (t <= from) break;
    length += Math.min(t, ends[2 * i + 1]!) - from;
  }
  return length;
}

/** Where along the ray `length` metres of haze have been passed. */
export function placeInHaze_m({ count, ends }: HazeStretches, length: number): number {
  let left = length;
  for (let i = 0; i < count - 1; i++) {
    const stretch = ends[2 * i + 1]! - ends[2 * i]!;
    if (left <= stretch) return ends[2 * i]! + left;
    left -= stretch;
  }
  return Math.min(ends[2 * count - 1]!, ends[2 * count - 2]! + left);
}

/** Whether a place along the ray lies in one of the stretches. */
export function isHazed({ count, ends }: HazeStretches, t: number): boolean {
  for (let i = 0; i < count; i++) if (t <= ends[2 * i + 1]!) return t >= ends[2 * i]!;
  return false;
}
