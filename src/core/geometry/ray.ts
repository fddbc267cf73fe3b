import { ORIGIN } from './shape-record.ts';

/**
 * The line o + t·d that the shape tests read, t counted in lengths of d (which need not be 1). One such record serves
 * any number of rays: the queries fill it and hand it down, so that no object is made per ray.
 */
export interface Ray {
  /** o (0..2) and d (3..5). */
  readonly line: Float64Array;
  /** d·d. */
  dd: number;
  /** The axis of d's largest component, the two others, and the shear that turns d into that axis. */
  main: number;
  across: number;
  up: number;
  shearAcross: number;
  shearUp: number;
  perMain: number;
}

/** Where a line meets a shape: up to two places, the first in t0. NaN where there is none. */
export interface Crossings {
  t0: number;
  t1: number;
  /** Which of a shape's surfaces is met: the axis of a box's face; 1 on a cylinder's cap, 0 on its side. */
  face0: number;
  face1: number;
}

export function newRay(): Ray {
  return {
    line: new Float64Array(6),
    dd: Number.NaN,
    main: 0,
    across: 1,
    up: 2,
    shearAcross: Number.NaN,
    shearUp: Number.NaN,
    perMain: Number.NaN,
  };
}

export function newCrossings(): Crossings {
  return { t0: Number.NaN, t1: Number.NaN, face0: 0, face1: 0 };
}

/** Fills `ray`; false where the direction is zero or not a number, that is where there is no line. */
export function aimRay(
  ray: Ray,
  ox: number,
  oy: number,
  oz: number,
  dx: number,
  dy: number,
  dz: number,
): boolean {
  const { line } = ray;
  line[0] = ox;
  line[1] = oy;
  line[2] = oz;
  line[3] = dx;
  line[4] = dy;
  line[5] = dz;
  ray.dd = dx * dx + dy * dy + dz * dz;
  const ax = Math.abs(dx);
  const ay = Math.abs(dy);
  const az = Math.abs(dz);
  ray.main = ax >= ay && ax >= az ? 0 : ay >= az ? 1 : 2;
  ray.across = (ray.main + 1) % 3;
  ray.up = (ray.main + 2) % 3;
  const along = line[3 + ray.main]!;
  ray.shearAcross = line[3 + ray.across]! / along;
  ray.shearUp = line[3 + ray.up]! / along;
  ray.perMain = 1 / along;
  return ray.dd > 0;
}

/** The same line in a shape's own frame: p (0..2) and q (3..5). */
export function toLocal(records: Float64Array, at: number, ray: Ray, local: Float64Array): void {
  const { line } = ray;
  const x = line[0]! - records[at + ORIGIN]!;
  const y = line[1]! - records[at + ORIGIN + 1]!;
  const z = line[2]! - records[at + ORIGIN + 2]!;
  const dx = line[3]!;
  const dy = line[4]!;
  const dz = line[5]!;
  for (let i = 0; i < 3; i++) {
    const row = at + 3 * i;
    const rx = records[row]!;
    const ry = records[row + 1]!;
    const rz = records[row + 2]!;
    local[i] = rx * x + ry * y + rz * z;
    local[3 + i] = rx * dx + ry * dy + rz * dz;
  }
}
