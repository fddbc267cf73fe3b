import { nearestHit, transmittance } from '../../core/geometry/ray-query.ts';
import { newHit } from '../../core/geometry/ray-shape.ts';
import type { LightModel } from '../../core/light-model/light-model.ts';
import { distance, subtract, type Vec3 } from '../../core/math/vec3.ts';
import { clearance_m } from '../../core/transport/source-sample.ts';
import { FAR_m } from '../../core/transport/tracer.ts';

const hit = newHit();
/** Clear panes in a row before one gives up looking for what hides a point. */
const MOST_PANES = 64;

/** Index of the first part that hides one point from another, panes looked through; −1 where nothing does. */
export function hidingPart(model: LightModel, from_m: Vec3, to_m: Vec3): number {
  const [x, y, z] = from_m;
  const [dx, dy, dz] = subtract(to_m, from_m);
  const whole = distance(to_m, from_m);
  if (whole === 0) return -1;
  const clear = clearance_m(whole) / whole;
  if (transmittance(model.geometry, x, y, z, dx, dy, dz, 0, 1 - clear, model.paneDirect) > 0) return -1;
  let start = 0;
  for (let i = 0; i < MOST_PANES; i++) {
    if (!nearestHit(model.geometry, x, y, z, dx, dy, dz, start, 1 - clear, hit)) return -1;
    const pane = model.geometry.panes[hit.shape]!;
    if (pane < 0 || model.paneDirect[pane] === 0) return hit.shape;
    start = hit.t + clear;
  }
  return hit.shape;
}

/** How far the first thing along a unit direction is that cannot be looked through; Infinity where there is none. */
export function opaqueAlong_m(model: LightModel, [x, y, z]: Vec3, [dx, dy, dz]: Vec3): number {
  let start = 0;
  for (let i = 0; i < MOST_PANES; i++) {
    if (!nearestHit(model.geometry, x, y, z, dx, dy, dz, start, FAR_m, hit)) return Number.POSITIVE_INFINITY;
    const pane = model.geometry.panes[hit.shape]!;
    if (pane < 0 || model.paneDirect[pane] === 0) return hit.t;
    start = hit.t + clearance_m(hit.t);
  }
  return hit.t;
}
