import { contours } from 'd3-contour';
import { aimThrough, newCameraRay } from '../../core/camera/thin-lens.ts';
import type { LightModel } from '../../core/light-model/light-model.ts';
import { blurDisc_mm } from '../../core/optics/depth-of-field.ts';
import { chosenCamera, lensOf } from '../camera/scene-camera.ts';
import type { SceneDocument } from '../schema/document.ts';
import { type LensFigures, lensFigures } from './lens-report.ts';
import { opaqueAlong_m } from './sight-line.ts';

/** The part of a camera's frame that is sharp: what is first seen there lies within the depth of field, clear panes looked through. */
export interface SharpRegion extends Pick<LensFigures, 'near_m' | 'far_m' | 'focus_m' | 'circle_mm'> {
  /** Closed lines, places 0..1 from the left and from the top; what lies within an odd number of them is sharp. */
  readonly rings: readonly (readonly (readonly [number, number])[])[];
}

/** Lines of sight across the frame. */
const COLUMNS = 320;
/** Blurs wider than so many circles of confusion are all alike: the outline lies where it is one. */
const MOST_CIRCLES = 2;
/** As good as infinity for any lens. */
const SKY_m = 1e7;

/** Of a scene whose setup has been applied and which is compiled to `model`. The pinhole's sight, before any blur. */
export function sharpRegion(document: SceneDocument, model: LightModel, id?: string): SharpRegion {
  const camera = chosenCamera(document, id);
  const lens = lensOf(camera);
  const { near_m, far_m, focus_m, circle_mm } = lensFigures(document, camera);
  const rows = Math.max(1, Math.round((COLUMNS * lens.halfHeight) / lens.halfWidth));
  const ray = newCameraRay();
  const [fx, fy, fz] = lens.forward;
  const circles: number[] = [];
  for (let row = 0; row < rows; row++) {
    for (let column = 0; column < COLUMNS; column++) {
      aimThrough(lens, (column + 0.5) / COLUMNS, (row + 0.5) / rows, 0, 0, ray);
      const way_m = opaqueAlong_m(model, lens.position_m, [ray.dx, ray.dy, ray.dz]);
      const depth_m = Math.min(SKY_m, way_m * (ray.dx * fx + ray.dy * fy + ray.dz * fz));
      const blur_mm = blurDisc_mm(camera.focal_mm, camera.fNumber, focus_m, depth_m);
      circles.push(Math.min(MOST_CIRCLES, blur_mm / circle_mm));
    }
  }
  const outline = contours()
    .size([COLUMNS, rows])
    .contour(
      circles.map((count) => -count),
      -1,
    );
  const rings = outline.coordinates.flatMap((polygon) =>
    polygon.map((ring) => ring.map(([x, y]) => [x! / COLUMNS, y! / rows] as const)),
  );
  return { near_m, far_m, focus_m, circle_mm, rings };
}
