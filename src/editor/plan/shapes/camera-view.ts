import { lampFrame } from '../../../core/lamps/lamp-frame.ts';
import { radiansFromDegrees } from '../../../core/math/angle.ts';
import { add, distance, scale, type Vec3 } from '../../../core/math/vec3.ts';
import { fieldOfView } from '../../../core/optics/field-of-view.ts';
import { aspectOf } from '../../../scene/camera/scene-camera.ts';
import type { Camera } from '../../../scene/schema/camera.ts';
import { type Flat, flat, type Projection } from '../drawing/projection.ts';
import { convexHull } from './convex-hull.ts';

const CORNERS = [
  [-1, -1],
  [1, -1],
  [1, 1],
  [-1, 1],
] as const;

/** The corners of the frame where it is so far from the camera, measured along its axis. */
function frameAt(camera: Camera, depth_m: number): readonly Vec3[] {
  const { origin_m, r, t, a } = lampFrame(camera.position_m, camera.look_m, camera.roll_deg);
  const { horizontal_deg, vertical_deg } = fieldOfView(camera.sensor_mm, aspectOf(camera), camera.focal_mm);
  const across = Math.tan(radiansFromDegrees(horizontal_deg) / 2);
  const up = Math.tan(radiansFromDegrees(vertical_deg) / 2);
  return CORNERS.map(([i, j]) => {
    const along = add(a, add(scale(r, i * across), scale(t, j * up)));
    return add(origin_m, scale(along, depth_m));
  });
}

/** What the camera sees, from its lens to a little beyond where it looks. */
export function viewWedge(camera: Camera, projection: Projection): readonly Flat[] {
  const depth_m = Math.max(2, 1.25 * distance(camera.position_m, camera.look_m));
  const points = [camera.position_m, ...frameAt(camera, depth_m)];
  return convexHull(points.map((point) => flat(point, projection)));
}

/** The plane of sharp focus across the frame; null where the camera has none set. */
export function focusLine(camera: Camera, projection: Projection): readonly Flat[] | null {
  if (camera.focus_m === undefined) return null;
  return convexHull(frameAt(camera, camera.focus_m).map((point) => flat(point, projection)));
}
