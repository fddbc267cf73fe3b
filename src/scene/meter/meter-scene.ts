import {
  DEFAULT_CALIBRATION,
  type Calibration as MeterConstants,
  type Zero,
  zeroOf,
} from '../../core/exposure/zero.ts';
import type { LightModel } from '../../core/light-model/light-model.ts';
import { length, normalize, subtract, type Vec3 } from '../../core/math/vec3.ts';
import { type Reading, readMeter } from '../../core/meter/meter.ts';
import { nearestName } from '../problems/nearest-name.ts';
import { problemAt, SceneError, shown } from '../problems/problem.ts';
import type { Camera } from '../schema/camera.ts';
import type { SceneDocument } from '../schema/document.ts';
import type { Mark } from '../schema/mark.ts';

/** What the document asks of every mark: the answer of `keyfall meter --json`, field by field. */
export interface MeterReport {
  readonly keyfall: 1;
  readonly title: string;
  readonly setup: string | null;
  readonly camera: string;
  readonly exposure: {
    readonly fNumber: number;
    readonly shutter_s: number;
    readonly iso: number;
    readonly nd_stops: number;
    readonly loss_stops: number;
    readonly calibration: MeterConstants;
    readonly zero: Zero;
  };
  /** Which light the readings hold. What is false is reported as 0 and is not in the sums. */
  readonly covers: {
    readonly direct: true;
    readonly sky: true;
    readonly bounce: false;
    readonly haze: false;
  };
  readonly marks: readonly MarkReport[];
}

export interface MarkReport extends Reading {
  readonly id: string;
  readonly name: string;
  readonly facing: string;
}

export interface MeterRequest {
  readonly setup?: string | undefined;
  readonly camera?: string | undefined;
  readonly error_stops?: number | undefined;
}

const DEFAULT_FACING = 'camera';
const DEFAULT_RECEPTOR = 'dome';

/** Reads every mark of a scene whose setup has been applied and which is compiled to `model`. */
export function meterScene(
  document: SceneDocument,
  model: LightModel,
  request: MeterRequest = {},
): MeterReport {
  const camera = chosenCamera(document, request.camera);
  const exposure = {
    fNumber: camera.fNumber,
    shutter_s: camera.shutter_s,
    iso: camera.iso,
    nd_stops: camera.nd_stops ?? 0,
    loss_stops: camera.loss_stops ?? 0,
  };
  const calibration: MeterConstants = {
    flat: document.calibration?.flat ?? DEFAULT_CALIBRATION.flat,
    dome: document.calibration?.dome ?? DEFAULT_CALIBRATION.dome,
    reflected: document.calibration?.reflected ?? DEFAULT_CALIBRATION.reflected,
  };
  return {
    keyfall: 1,
    title: document.title,
    setup: request.setup ?? null,
    camera: camera.id,
    exposure: { ...exposure, calibration, zero: zeroOf(exposure, calibration) },
    covers: { direct: true, sky: true, bounce: false, haze: false },
    marks: (document.marks ?? []).map((mark) => ({
      id: mark.id,
      name: mark.name ?? mark.id,
      facing: facingText(mark),
      ...readMeter(model, meterPoint(document, mark, camera), mark.receptor ?? DEFAULT_RECEPTOR, {
        exposure,
        calibration,
        ...(request.error_stops === undefined ? {} : { error_stops: request.error_stops }),
      }),
    })),
  };
}

/** The camera that was asked for, else the first. Throws SceneError when there is none. */
export function chosenCamera(document: SceneDocument, id?: string): Camera {
  const cameras = document.cameras ?? [];
  const camera = id === undefined ? cameras[0] : cameras.find((c) => c.id === id);
  if (camera) return camera;
  const found = id === undefined ? 'no camera' : `no camera ${shown(id)}`;
  const expected = 'a camera, because stops are counted from its exposure';
  const nearest =
    id === undefined
      ? undefined
      : nearestName(
          id,
          cameras.map((c) => c.id),
        );
  throw new SceneError([problemAt(document, ['cameras'], { found, expected, nearest })]);
}

/** Where a mark's receptor points, as a unit direction. */
export function meterPoint(document: SceneDocument, mark: Mark, camera: Camera) {
  const facing = mark.facing ?? DEFAULT_FACING;
  const toward = (target: Vec3, what: string): Vec3 => {
    const direction = subtract(target, mark.position_m);
    if (length(direction) > 1e-6) return normalize(direction);
    const at = ['marks', (document.marks ?? []).indexOf(mark), 'position_m'];
    throw new SceneError([
      problemAt(document, at, { found: `a mark on ${what} it faces`, expected: 'some distance' }),
    ]);
  };
  if (typeof facing !== 'string') return { position_m: mark.position_m, facing: normalize(facing) };
  if (facing === 'camera')
    return { position_m: mark.position_m, facing: toward(camera.position_m, 'the camera') };
  const lamp = (document.lamps ?? []).find((l) => `lamp:${l.id}` === facing)!;
  return { position_m: mark.position_m, facing: toward(lamp.position_m, 'the lamp') };
}

function facingText(mark: Mark): string {
  const facing = mark.facing ?? DEFAULT_FACING;
  return typeof facing === 'string' ? facing : facing.map((v) => Number(v.toFixed(3))).join(', ');
}
