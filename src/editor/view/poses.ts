import { Matrix4, PerspectiveCamera, Vector3 } from 'three';
import { fieldOfView } from '../../core/optics/field-of-view.ts';
import type { Camera } from '../../scene/schema/camera.ts';
import type { SceneDocument } from '../../scene/schema/document.ts';

export const FIELD_OF_VIEW_deg = 40;

/** From where the working view looks, and what it turns about. */
export interface Pose {
  readonly from: Vector3;
  readonly at: Vector3;
}

/** Everything that is planned for: marks, lamps, cameras and people; bodies may reach far beyond. */
function pointsOf(document: SceneDocument): Vector3[] {
  const { marks = [], lamps = [], cameras = [], figures = [], solids = [] } = document;
  const placed = [...marks, ...lamps, ...cameras, ...figures].map(
    ({ position_m }) => new Vector3(...position_m),
  );
  if (placed.length > 0) return placed;
  return solids.length > 0 ? solids.map(({ position_m }) => new Vector3(...position_m)) : [new Vector3()];
}

/** From a high corner, on the side that the camera stands on. */
export function overallPose(document: SceneDocument, aspect: number): Pose {
  const camera = document.cameras?.[0];
  const sideways = camera && camera.position_m[2] < camera.look_m[2] ? -1 : 1;
  return fitted(pointsOf(document), new Vector3(-0.3, 0.8, sideways), aspect);
}

/** Straight down, +x to the right. */
export function planPose(document: SceneDocument, aspect: number): Pose {
  // A hair off the vertical, so that "up" on the screen stays −z.
  return fitted(pointsOf(document), new Vector3(0, 1, 1e-4), aspect);
}

export function cameraPose(camera: Camera): Pose {
  return { from: new Vector3(...camera.position_m), at: new Vector3(...camera.look_m) };
}

const MARGIN = 1.2;
/** Names stand to the right of what they name. */
const MARGIN_ACROSS = 1.38;
const NEAREST_m = 4;

/** As near as all points stay in the picture, seen from a direction. */
function fitted(points: readonly Vector3[], direction: Vector3, aspect: number): Pose {
  const lowest = points.reduce((m, p) => m.min(p), new Vector3(Infinity, Infinity, Infinity));
  const highest = points.reduce((m, p) => m.max(p), new Vector3(-Infinity, -Infinity, -Infinity));
  const at = lowest.clone().add(highest).multiplyScalar(0.5);
  const toViewer = direction.clone().normalize();
  const turn = new Matrix4().lookAt(toViewer, new Vector3(), new Vector3(0, 1, 0)).invert();
  const up = Math.tan((FIELD_OF_VIEW_deg * Math.PI) / 360);
  const distance = points.reduce((far, point) => {
    const { x, y, z } = point.clone().sub(at).applyMatrix4(turn);
    return Math.max(far, z + (MARGIN_ACROSS * Math.abs(x)) / (up * aspect), z + (MARGIN * Math.abs(y)) / up);
  }, NEAREST_m);
  return { from: at.clone().addScaledVector(toViewer, distance), at };
}

/** The corners of a camera's frame at a distance, as the ends of the pyramid that is drawn for it. */
export function frameCorners(camera: Camera, distance_m: number): Vector3[] {
  const [width, height] = camera.sensor_mm;
  const aspect = camera.aspect ?? width / height;
  const { horizontal_deg, vertical_deg } = fieldOfView(camera.sensor_mm, aspect, camera.focal_mm);
  const x = distance_m * Math.tan((horizontal_deg * Math.PI) / 360);
  const y = distance_m * Math.tan((vertical_deg * Math.PI) / 360);
  const eye = new PerspectiveCamera();
  eye.position.set(...camera.position_m);
  eye.lookAt(...camera.look_m);
  eye.rotateZ((-(camera.roll_deg ?? 0) * Math.PI) / 180);
  eye.updateMatrix();
  return [
    [-x, -y],
    [x, -y],
    [x, y],
    [-x, y],
  ].map(([right, top]) => new Vector3(right, top, -distance_m).applyMatrix4(eye.matrix));
}
