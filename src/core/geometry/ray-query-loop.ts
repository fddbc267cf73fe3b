import type { Geometry } from './geometry.ts';
import { aimRay, newCrossings, newRay } from './ray.ts';
import { completeHit, type Hit, shapeCrossings } from './ray-shape.ts';

/**
 * The queries of ray-query.ts by the plainest means, shape after shape: what the hierarchy is tested against and
 * measured by.
 */
const ray = newRay();
const crossings = newCrossings();

export function nearestHitByLoop(
  geometry: Geometry,
  ox: number,
  oy: number,
  oz: number,
  dx: number,
  dy: number,
  dz: number,
  tMin: number,
  tMax: number,
  hit: Hit,
): boolean {
  if (!aimRay(ray, ox, oy, oz, dx, dy, dz)) return false;
  let best = Number.POSITIVE_INFINITY;
  let bestShape = -1;
  for (let shape = 0; shape < geometry.shapeCount; shape++) {
    if (!shapeCrossings(geometry, shape, ray, crossings)) continue;
    for (const t of [crossings.t0, crossings.t1])
      if (t >= tMin && t <= tMax && t < best) {
        best = t;
        bestShape = shape;
      }
  }
  if (bestShape < 0) return false;
  hit.t = best;
  hit.shape = bestShape;
  completeHit(geometry, ray, hit);
  return true;
}

export function transmittanceByLoop(
  geometry: Geometry,
  ox: number,
  oy: number,
  oz: number,
  dx: number,
  dy: number,
  dz: number,
  tMin: number,
  tMax: number,
  paneDirect: Float64Array,
): number {
  if (!aimRay(ray, ox, oy, oz, dx, dy, dz)) return 1;
  let passed = 1;
  for (let shape = 0; shape < geometry.shapeCount; shape++) {
    if (!shapeCrossings(geometry, shape, ray, crossings)) continue;
    const pane = geometry.panes[shape]!;
    const through = pane < 0 ? 0 : paneDirect[pane]!;
    for (const t of [crossings.t0, crossings.t1]) if (t >= tMin && t <= tMax) passed *= through;
  }
  return passed;
}
