import { BOUNDS_STRIDE } from './bounds.ts';
import type { Geometry } from './geometry.ts';
import { aimRay, newCrossings, newRay } from './ray.ts';
import { completeHit, type Hit, shapeCrossings } from './ray-shape.ts';

/**
 * The two questions the solver asks of a scene. A ray is o + t·d for tMin ≤ t ≤ tMax, both ends included; d need not
 * be a unit vector (from p to q: d = q − p, t from 0 to 1). A ray that starts on a surface meets that surface again
 * at t ≈ 0: the caller starts it a little off. No array or object is made per ray.
 *
 * Both walk the threaded hierarchy. The box test is written out in each because it is the innermost loop of the whole
 * program, and as a chain of comparisons because taking minima and maxima first costs two thirds more time: each is a
 * branch that the processor cannot foresee. A zero component of d is replaced by a reciprocal that is huge but finite,
 * so that 0 · ∞ cannot occur.
 */
const HUGE = 1e300;

const ray = newRay();
const crossings = newCrossings();

/**
 * The first surface a ray meets, in `hit`; false, and `hit` as it was, where it meets none. Of surfaces that coincide,
 * the one listed first counts.
 */
export function nearestHit(
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
  const { bounds, skip, first, count, order } = geometry.hierarchy;
  const perX = reciprocal(dx);
  const perY = reciprocal(dy);
  const perZ = reciprocal(dz);
  const nearX = perX > 0 ? 0 : 3;
  const nearY = perY > 0 ? 1 : 4;
  const nearZ = perZ > 0 ? 2 : 5;
  const nodes = skip.length;
  let best = tMax;
  let bestShape = -1;
  let node = 0;
  while (node < nodes) {
    const at = node * BOUNDS_STRIDE;
    const enterX = (bounds[at + nearX]! - ox) * perX;
    const enterY = (bounds[at + nearY]! - oy) * perY;
    const enterZ = (bounds[at + nearZ]! - oz) * perZ;
    const exitX = (bounds[at + 3 - nearX]! - ox) * perX;
    const exitY = (bounds[at + 5 - nearY]! - oy) * perY;
    const exitZ = (bounds[at + 7 - nearZ]! - oz) * perZ;
    const reached =
      exitX >= tMin &&
      enterX <= best &&
      exitY >= tMin &&
      enterY <= best &&
      enterX <= exitY &&
      enterY <= exitX &&
      exitZ >= tMin &&
      enterZ <= best &&
      enterX <= exitZ &&
      enterZ <= exitX &&
      enterY <= exitZ &&
      enterZ <= exitY;
    if (!reached) {
      node = skip[node]!;
      continue;
    }
    const shapes = count[node]!;
    const start = first[node]!;
    for (let i = start; i < start + shapes; i++) {
      const shape = order[i]!;
      if (!shapeCrossings(geometry, shape, ray, crossings)) continue;
      const t = crossings.t0 >= tMin ? crossings.t0 : crossings.t1;
      if (t >= tMin && (t < best || (t === best && (bestShape < 0 || shape < bestShape)))) {
        best = t;
        bestShape = shape;
      }
    }
    node++;
  }
  if (bestShape < 0) return false;
  hit.t = best;
  hit.shape = bestShape;
  completeHit(geometry, ray, hit);
  return true;
}

/**
 * What share of light passes straight along a ray: 0 behind anything opaque, otherwise the product of
 * `paneDirect[pane]` over the surfaces of panes it crosses. A closed pane (a bottle) counts on the way in and again
 * on the way out; a line exactly through the edge that two triangles of one pane share counts in both.
 */
export function transmittance(
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
  const { panes } = geometry;
  const { bounds, skip, first, count, order } = geometry.hierarchy;
  const perX = reciprocal(dx);
  const perY = reciprocal(dy);
  const perZ = reciprocal(dz);
  const nearX = perX > 0 ? 0 : 3;
  const nearY = perY > 0 ? 1 : 4;
  const nearZ = perZ > 0 ? 2 : 5;
  const nodes = skip.length;
  let passed = 1;
  let node = 0;
  while (node < nodes) {
    const at = node * BOUNDS_STRIDE;
    const enterX = (bounds[at + nearX]! - ox) * perX;
    const enterY = (bounds[at + nearY]! - oy) * perY;
    const enterZ = (bounds[at + nearZ]! - oz) * perZ;
    const exitX = (bounds[at + 3 - nearX]! - ox) * perX;
    const exitY = (bounds[at + 5 - nearY]! - oy) * perY;
    const exitZ = (bounds[at + 7 - nearZ]! - oz) * perZ;
    const reached =
      exitX >= tMin &&
      enterX <= tMax &&
      exitY >= tMin &&
      enterY <= tMax &&
      enterX <= exitY &&
      enterY <= exitX &&
      exitZ >= tMin &&
      enterZ <= tMax &&
      enterX <= exitZ &&
      enterZ <= exitX &&
      enterY <= exitZ &&
      enterZ <= exitY;
    if (!reached) {
      node = skip[node]!;
      continue;
    }
    const shapes = count[node]!;
    const start = first[node]!;
    for (let i = start; i < start + shapes; i++) {
      const shape = order[i]!;
      if (!shapeCrossings(geometry, shape, ray, crossings)) continue;
      const { t0, t1 } = crossings;
      const pane = panes[shape]!;
      if (t0 >= tMin && t0 <= tMax) {
        if (pane < 0) return 0;
        passed *= paneDirect[pane]!;
      }
      if (t1 >= tMin && t1 <= tMax) {
        if (pane < 0) return 0;
        passed *= paneDirect[pane]!;
      }
    }
    node++;
  }
  return passed;
}

function reciprocal(component: number): number {
  const per = 1 / component;
  return Math.abs(per) < HUGE ? per : component < 0 ? -HUGE : HUGE;
}
