import { placeInFrame, type ThinLens } from '../../core/camera/thin-lens.ts';
import type { LightModel } from '../../core/light-model/light-model.ts';
import { add, length, type Vec3 } from '../../core/math/vec3.ts';
import { motionBlur_px, shutterForBlur } from '../../core/optics/motion-blur.ts';
import { positionAt_m, timesOf } from '../moves/position-at.ts';
import type { Camera } from '../schema/camera.ts';
import type { SceneDocument } from '../schema/document.ts';
import { type Path, WALKER } from '../schema/path.ts';
import { METER_HEIGHT_m } from '../walk/walker.ts';
import { seenBlur_px } from './seen-blur.ts';
import { hidingPart } from './sight-line.ts';
import { depth_m, inFrame } from './sighting.ts';
import { topSpeed_m_per_s, velocityAt_m_per_s } from './velocity-at.ts';

/** How blurred a mover is where it comes nearest to the camera in frame. */
export interface PathBlur {
  readonly path: string;
  readonly name: string;
  readonly of: string;
  /** Null where it is never seen, or where a camera moves. */
  readonly nearest: {
    readonly t_s: number;
    readonly distance_m: number;
    readonly speed_m_per_s: number;
    readonly blur_px: number;
    /** What keeps the blur to SHARP_px; null where it is within that already. */
    readonly sharp: { readonly shutter_s: number; readonly stops: number } | null;
  } | null;
  /**
   * Where this camera moves: its fastest, and how far what stands still in the plane of focus runs across the picture if all
   * of the move is across the view.
   */
  readonly ofThisCamera: {
    readonly speed_m_per_s: number;
    readonly focus_m: number;
    readonly blur_px: number;
  } | null;
  readonly ofOtherCamera: boolean;
}

/** Common practice, no source: blur of so many pixels still looks sharp. */
export const SHARP_px = 3;
const STEP_s = 0.1;
const MOST_STEPS = 20_000;

export function pathBlur(
  document: SceneDocument,
  lens: ThinLens,
  model: LightModel,
  camera: Camera,
  path: Path,
  frameWidth_px: number,
): PathBlur {
  const { shutter_s } = camera;
  const about = {
    path: path.id,
    name: path.name ?? path.id,
    of: path.of,
    nearest: null,
    ofThisCamera: null,
    ofOtherCamera: false,
  };
  if (path.of === camera.id) return { ...about, ofThisCamera: cameraBlur(camera, lens, path, frameWidth_px) };
  if ((document.cameras ?? []).some(({ id }) => id === path.of)) return { ...about, ofOtherCamera: true };
  const onFoot = path.of === WALKER || (document.figures ?? []).some(({ id }) => id === path.of);
  const at = (t_s: number): Vec3 => add(positionAt_m(path, t_s), [0, onFoot ? METER_HEIGHT_m : 0, 0]);

  const { from_s, to_s } = timesOf(path);
  const steps = Math.min(MOST_STEPS, Math.max(1, Math.ceil((to_s - from_s) / STEP_s)));
  let nearest: { t_s: number; distance_m: number } | null = null;
  for (let i = 0; i <= steps; i++) {
    const t_s = from_s + ((to_s - from_s) * i) / steps;
    const point = at(t_s);
    if (!inFrame(placeInFrame(lens, point))) continue;
    const distance_m = depth_m(lens, point);
    if (nearest && nearest.distance_m <= distance_m) continue;
    if (isHidden(model, lens, point, path.of)) continue;
    nearest = { t_s, distance_m };
  }
  if (!nearest) return about;
  const velocity = velocityAt_m_per_s(path, nearest.t_s);
  const blur_px = seenBlur_px(lens, at(nearest.t_s), velocity, shutter_s, frameWidth_px) ?? 0;
  const sharp = blur_px > SHARP_px ? shutterForBlur(blur_px, shutter_s, SHARP_px) : null;
  return {
    ...about,
    nearest: { ...nearest, speed_m_per_s: length(velocity), blur_px, sharp },
  };
}

function cameraBlur(
  camera: Camera,
  lens: ThinLens,
  path: Path,
  frameWidth_px: number,
): PathBlur['ofThisCamera'] {
  const speed_m_per_s = topSpeed_m_per_s(path);
  const { focal_mm } = camera;
  const frameWidth_mm = 2 * lens.halfWidth * focal_mm;
  const move = { speed_m_per_s, distance_m: lens.focus_m, focal_mm, frameWidth_mm, frameWidth_px };
  return { speed_m_per_s, focus_m: lens.focus_m, blur_px: motionBlur_px(move, camera.shutter_s) };
}

/** A figure that follows a path does not hide itself. */
function isHidden(model: LightModel, lens: ThinLens, point_m: Vec3, mover: string): boolean {
  const part = hidingPart(model, lens.position_m, point_m);
  return part >= 0 && model.owners[model.parts[part]!.owner]!.id !== mover;
}
