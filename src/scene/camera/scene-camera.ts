import { type ThinLens, thinLens } from '../../core/camera/thin-lens.ts';
import {
  type CameraExposure,
  DEFAULT_CALIBRATION,
  type Calibration as MeterConstants,
} from '../../core/exposure/zero.ts';
import { nearestName } from '../problems/nearest-name.ts';
import { problemAt, SceneError, shown } from '../problems/problem.ts';
import type { Camera } from '../schema/camera.ts';
import type { SceneDocument } from '../schema/document.ts';

/** The camera that was asked for, else the first. Throws SceneError when there is none. */
export function chosenCamera(document: SceneDocument, id?: string): Camera {
  const cameras = document.cameras ?? [];
  const camera = id === undefined ? cameras[0] : cameras.find((c) => c.id === id);
  if (camera) return camera;
  const found = id === undefined ? 'no camera' : `no camera ${shown(id)}`;
  const ids = cameras.map((c) => c.id);
  const expected =
    ids.length > 0 ? `one of ${ids.join(', ')}` : 'a camera, because stops are counted from its exposure';
  const nearest = id === undefined ? undefined : nearestName(id, ids);
  throw new SceneError([problemAt(document, ['cameras'], { found, expected, nearest })]);
}

export function exposureOf(camera: Camera): CameraExposure {
  return {
    fNumber: camera.fNumber,
    shutter_s: camera.shutter_s,
    iso: camera.iso,
    nd_stops: camera.nd_stops ?? 0,
    loss_stops: camera.loss_stops ?? 0,
  };
}

export function calibrationOf(document: SceneDocument): MeterConstants {
  return {
    flat: document.calibration?.flat ?? DEFAULT_CALIBRATION.flat,
    dome: document.calibration?.dome ?? DEFAULT_CALIBRATION.dome,
    reflected: document.calibration?.reflected ?? DEFAULT_CALIBRATION.reflected,
  };
}

export function aspectOf(camera: Camera): number {
  return camera.aspect ?? camera.sensor_mm[0] / camera.sensor_mm[1];
}

export function lensOf(camera: Camera): ThinLens {
  return thinLens({
    position_m: camera.position_m,
    look_m: camera.look_m,
    roll_deg: camera.roll_deg ?? 0,
    sensor_mm: camera.sensor_mm,
    aspect: aspectOf(camera),
    focal_mm: camera.focal_mm,
    fNumber: camera.fNumber,
    focus_m: camera.focus_m ?? null,
  });
}

/** Of a camera without a white balance: that of photographic daylight. */
export const DEFAULT_WHITE_BALANCE_K = 5600;
