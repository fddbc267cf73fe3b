import type { LampFrame } from '../../../core/lamps/lamp-frame.ts';
import { radiansFromDegrees } from '../../../core/math/angle.ts';
import { add, scale, type Vec3 } from '../../../core/math/vec3.ts';
import type { PlaneAngles } from '../../../core/photometry/beam-angle.ts';
import { type Flat, flat, type Projection } from '../drawing/projection.ts';
import { convexHull } from './convex-hull.ts';

const EDGES = 128;

/**
 * Directions along the edge of a beam whose full angles are known in two planes; between them the half angle goes round an
 * ellipse.
 */
export function beamEdges({ r, t, a }: LampFrame, { c0_deg, c90_deg }: PlaneAngles): readonly Vec3[] {
  return Array.from({ length: EDGES }, (_, i): Vec3 => {
    const turn = (2 * Math.PI * i) / EDGES;
    const half = radiansFromDegrees(halfAngle_deg(c0_deg / 2, c90_deg / 2, turn));
    const sideways = add(scale(r, Math.cos(turn)), scale(t, Math.sin(turn)));
    return add(scale(a, Math.cos(half)), scale(sideways, Math.sin(half)));
  });
}

function halfAngle_deg(c0: number, c90: number, turn: number): number {
  if (c0 <= 0 || c90 <= 0) return 0;
  return 1 / Math.hypot(Math.cos(turn) / c0, Math.sin(turn) / c90);
}

/** The beam as the sheet shows it, cut off at a distance from the lamp. */
export function beamOutline(
  frame: LampFrame,
  angles: PlaneAngles,
  reach_m: number,
  projection: Projection,
): readonly Flat[] {
  const ends = beamEdges(frame, angles).map((edge) => add(frame.origin_m, scale(edge, reach_m)));
  return convexHull([frame.origin_m, ...ends].map((point) => flat(point, projection)));
}

/**
 * Where the edge of a beam meets a level plane: as many lines as it takes, one closed ring where all of the edge comes down
 * (or up) to it. What is further than `reach_m` from the lamp is left out.
 */
export function beamAtHeight(
  frame: LampFrame,
  angles: PlaneAngles,
  height_m: number,
  reach_m: number,
): readonly { readonly points: readonly Flat[]; readonly closed: boolean }[] {
  const rise_m = height_m - frame.origin_m[1];
  const hits = beamEdges(frame, angles).map((edge): Flat | null => {
    const along_m = rise_m / edge[1];
    if (!(along_m > 0 && along_m <= reach_m)) return null;
    return flat(add(frame.origin_m, scale(edge, along_m)), 'plan');
  });
  if (hits.every((hit) => hit !== null)) return [{ points: hits as Flat[], closed: true }];
  const gap = hits.indexOf(null);
  const runs: Flat[][] = [[]];
  for (let i = 0; i < EDGES; i++) {
    const hit = hits[(gap + i) % EDGES]!;
    if (hit) runs.at(-1)!.push(hit);
    else if (runs.at(-1)!.length > 0) runs.push([]);
  }
  return runs.filter((points) => points.length > 1).map((points) => ({ points, closed: false }));
}
