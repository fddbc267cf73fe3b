import { placeInFrame } from '../../core/camera/thin-lens.ts';
import type { LightModel } from '../../core/light-model/light-model.ts';
import type { Vec3 } from '../../core/math/vec3.ts';
import {
  blurDisc_mm,
  circleOfConfusion_mm,
  hyperfocal_m,
  pupil_mm,
  sharpRange,
} from '../../core/optics/depth-of-field.ts';
import { coverage_m, croppedSensor_mm, fieldOfView } from '../../core/optics/field-of-view.ts';
import { angleOfShutter_deg } from '../../core/optics/shutter-angle.ts';
import { aspectOf, chosenCamera, lensOf } from '../camera/scene-camera.ts';
import { figureSpec } from '../compile/figure-shapes.ts';
import { LIBRARY, type Library } from '../library/library.ts';
import { problemAt, SceneError } from '../problems/problem.ts';
import type { Camera } from '../schema/camera.ts';
import type { SceneDocument } from '../schema/document.ts';
import { type FigureInFrame, figureInFrame } from './figure-in-frame.ts';
import { type FlickerCheck, flickerCheck } from './flicker-check.ts';
import { type LampInShot, lampInShot } from './lamp-in-shot.ts';
import { type PathBlur, pathBlur } from './path-blur.ts';
import { depth_m, type FramePlace, inFrame } from './sighting.ts';

/** What a camera's lens and shutter make of the scene: the answer of `keyfall lens --json`, field by field. */
export interface LensReport {
  readonly keyfall: 1;
  readonly title: string;
  readonly setup: string | null;
  readonly camera: string;
  readonly lens: LensFigures;
  readonly shutter: ShutterFigures;
  readonly flicker: FlickerCheck;
  readonly moves: readonly PathBlur[];
  readonly lamps: readonly LampInShot[];
  readonly figures: readonly (FigureInFrame & { readonly id: string; readonly name: string })[];
  readonly marks: readonly MarkInFrame[];
  /** The document does not say where cables run. */
  readonly cables: 'not checked';
  /** No lamp head on a stand and no stand is in shot. */
  readonly clean: boolean;
}

export interface LensFigures {
  readonly focal_mm: number;
  readonly fNumber: number;
  readonly pupil_mm: number;
  /** The sensor cropped to the picture's aspect. */
  readonly frame_mm: readonly [number, number];
  readonly horizontal_deg: number;
  readonly vertical_deg: number;
  readonly diagonal_deg: number;
  /** Focus and limits are distances from the lens along its axis. */
  readonly focus_m: number;
  readonly frameAtFocus_m: readonly [number, number];
  readonly circle_mm: number;
  readonly hyperfocal_m: number;
  readonly near_m: number;
  /** Null for infinity. */
  readonly far_m: number | null;
}

export interface ShutterFigures {
  readonly shutter_s: number;
  readonly rate_fps: number | null;
  /** Null without a frame rate; over 360° the frame rate cannot be had with this shutter. */
  readonly angle_deg: number | null;
  readonly frameWidth_px: number;
}

export interface MarkInFrame {
  readonly id: string;
  readonly name: string;
  /** Null behind the camera. */
  readonly at: FramePlace | null;
  readonly inFrame: boolean;
  /** Along the camera's axis. */
  readonly distance_m: number;
  readonly sharp: boolean;
  /** Width of a point's image there; null behind the camera. */
  readonly blur_px: number | null;
}

export interface LensRequest {
  readonly setup?: string | undefined;
  readonly camera?: string | undefined;
  readonly rate_fps?: number | undefined;
  readonly frameWidth_px?: number | undefined;
}

/** Common practice, no source: a still of 24 megapixels. */
export const DEFAULT_FRAME_WIDTH_px = 6000;

/** Of a scene whose setup has been applied and which is compiled to `model`. */
export function lensReport(
  document: SceneDocument,
  model: LightModel,
  request: LensRequest = {},
  library: Library = LIBRARY,
): LensReport {
  const camera = chosenCamera(document, request.camera);
  const rate_fps = request.rate_fps ?? null;
  const frameWidth_px = request.frameWidth_px ?? DEFAULT_FRAME_WIDTH_px;
  const { shutter_s } = camera;
  const lens = lensOf(camera);
  const figures = lensFigures(document, camera);
  const lamps = (document.lamps ?? []).map((lamp, i) => lampInShot(lens, model, lamp, model.lamps[i]!));
  return {
    keyfall: 1,
    title: document.title,
    setup: request.setup ?? null,
    camera: camera.id,
    lens: figures,
    shutter: {
      shutter_s,
      rate_fps,
      angle_deg: rate_fps === null ? null : angleOfShutter_deg(shutter_s, rate_fps),
      frameWidth_px,
    },
    flicker: flickerCheck(document, library, shutter_s, rate_fps),
    moves: (document.paths ?? []).map((path) => pathBlur(document, lens, model, camera, path, frameWidth_px)),
    lamps,
    figures: (document.figures ?? []).map((figure) => ({
      id: figure.id,
      name: figure.name ?? figure.id,
      ...figureInFrame(lens, figureSpec(figure)),
    })),
    marks: (document.marks ?? []).map((mark) => ({
      id: mark.id,
      name: mark.name ?? mark.id,
      ...markInFrame(camera, figures, mark.position_m, frameWidth_px),
    })),
    cables: 'not checked',
    clean: !lamps.some(isFault),
  };
}

/** A lamp that should not be seen and is. */
export function isFault({ practical, head, stand }: LampInShot): boolean {
  return !practical && (head.seen === 'in shot' || stand?.seen === 'in shot');
}

/** What the lens is, its depth of field included. @throws SceneError where it cannot focus so close */
export function lensFigures(document: SceneDocument, camera: Camera): LensFigures {
  const { focal_mm, fNumber, sensor_mm } = camera;
  const { focus_m } = lensOf(camera);
  if (focus_m <= focal_mm / 1000) {
    const at = ['cameras', (document.cameras ?? []).indexOf(camera), 'focus_m'];
    const found = `focus at ${focus_m} m, within the focal length of ${focal_mm} mm`;
    throw new SceneError([problemAt(document, at, { found, expected: 'a focus farther than that' })]);
  }
  const frame_mm = croppedSensor_mm(sensor_mm, aspectOf(camera));
  const circle_mm = circleOfConfusion_mm(frame_mm);
  const setting = { focal_mm, fNumber, circle_mm };
  const { near_m, far_m } = sharpRange(setting, focus_m);
  return {
    focal_mm,
    fNumber,
    pupil_mm: pupil_mm(focal_mm, fNumber),
    frame_mm,
    ...fieldOfView(sensor_mm, aspectOf(camera), focal_mm),
    focus_m,
    frameAtFocus_m: [coverage_m(frame_mm[0], focal_mm, focus_m), coverage_m(frame_mm[1], focal_mm, focus_m)],
    circle_mm,
    hyperfocal_m: hyperfocal_m(setting),
    near_m,
    far_m: Number.isFinite(far_m) ? far_m : null,
  };
}

function markInFrame(camera: Camera, figures: LensFigures, point_m: Vec3, frameWidth_px: number) {
  const lens = lensOf(camera);
  const at = placeInFrame(lens, point_m);
  const distance_m = depth_m(lens, point_m);
  const { focal_mm, fNumber, focus_m, near_m, far_m, frame_mm } = figures;
  return {
    at,
    inFrame: inFrame(at),
    distance_m,
    sharp: distance_m >= near_m && (far_m === null || distance_m <= far_m),
    blur_px: at ? (blurDisc_mm(focal_mm, fNumber, focus_m, distance_m) / frame_mm[0]) * frameWidth_px : null,
  };
}
