import { dot, normalize, scale, subtract, type Vec3 } from '../../../core/math/vec3.ts';
import type { Glint } from '../../../core/mirror/glint.ts';
import type { Camera } from '../../schema/camera.ts';
import type { Lamp } from '../../schema/lamp.ts';
import type { Standing } from '../standing.ts';

/**
 * What may be moved to get rid of a glint. Back and forward are along the lamp's aim on plan; out and in are square to an
 * upright shiny side, along it are `along-away` and `along-toward` (from and toward the camera); beside a floor, where
 * there is no such side, left and right are those of someone behind the lamp.
 */
export type ChangeKind =
  | 'lamp-up'
  | 'lamp-down'
  | 'lamp-back'
  | 'lamp-forward'
  | 'lamp-out'
  | 'lamp-in'
  | 'lamp-along-away'
  | 'lamp-along-toward'
  | 'lamp-left'
  | 'lamp-right'
  | 'camera-up'
  | 'camera-down'
  | 'camera-back'
  | 'camera-left'
  | 'camera-right';

export interface Move {
  readonly change: ChangeKind;
  readonly of: 'lamp' | 'camera';
  /** Unit. */
  readonly direction: Vec3;
  readonly reach_m: number;
}

/** How far a thing is moved before it is another set-up: common practice, no source. */
const LAMP_RISE_m = 6;
const LAMP_BACK_m = 15;
const LAMP_ASIDE_m = 10;
const CAMERA_HIGHEST_m = 4;
const CAMERA_BACK_m = 6;
const CAMERA_ASIDE_m = 4;
/** Nearer to what it lights, or to the side that it rakes, a lamp is not brought. */
const LEAST_THROW_m = 1;
const LEAST_GAP_m = 0.1;
const LOWEST_m = 0.2;

/** A side that leans less than this sine from the upright has an out and an in. */
const UPRIGHT = 0.7;

export function lampMoves(lamp: Lamp, standing: Standing, camera: Camera, glint: Glint): Move[] {
  const height_m = lamp.position_m[1] - standing.ground_m;
  const { maxHeight_m } = standing.stander;
  const highest_m = Number.isFinite(maxHeight_m) ? maxHeight_m : height_m + LAMP_RISE_m;
  const moves = [
    lampMove('lamp-up', [0, 1, 0], highest_m - height_m),
    lampMove('lamp-down', [0, -1, 0], height_m - LOWEST_m),
  ];
  const aim = onPlan(subtract(lamp.aim_m, lamp.position_m));
  if (aim) {
    const throw_m = Math.hypot(lamp.aim_m[0] - lamp.position_m[0], lamp.aim_m[2] - lamp.position_m[2]);
    moves.push(
      lampMove('lamp-back', scale(aim, -1), LAMP_BACK_m),
      lampMove('lamp-forward', aim, Math.min(LAMP_BACK_m, throw_m - LEAST_THROW_m)),
    );
  }
  const out = Math.hypot(glint.normal[0], glint.normal[2]) > UPRIGHT ? onPlan(glint.normal) : null;
  if (out) {
    const gap_m = dot(subtract(lamp.position_m, glint.point_m), out);
    const alongSide: Vec3 = [-out[2], 0, out[0]];
    const leads = dot(alongSide, subtract(lamp.position_m, camera.position_m)) > 0;
    const away = leads ? alongSide : scale(alongSide, -1);
    moves.push(
      lampMove('lamp-out', out, LAMP_ASIDE_m),
      lampMove('lamp-in', scale(out, -1), Math.min(LAMP_ASIDE_m, gap_m - LEAST_GAP_m)),
      lampMove('lamp-along-away', away, LAMP_ASIDE_m),
      lampMove('lamp-along-toward', scale(away, -1), LAMP_ASIDE_m),
    );
  } else if (aim) {
    const right: Vec3 = [-aim[2], 0, aim[0]];
    moves.push(
      lampMove('lamp-left', scale(right, -1), LAMP_ASIDE_m),
      lampMove('lamp-right', right, LAMP_ASIDE_m),
    );
  }
  return moves.filter((move) => move.reach_m > 0);
}

export function cameraMoves(camera: Camera, standing: Standing): Move[] {
  const height_m = camera.position_m[1] - standing.ground_m;
  const moves = [
    cameraMove('camera-up', [0, 1, 0], CAMERA_HIGHEST_m - height_m),
    cameraMove('camera-down', [0, -1, 0], height_m - LOWEST_m),
  ];
  const look = onPlan(subtract(camera.look_m, camera.position_m));
  if (look) {
    const right: Vec3 = [-look[2], 0, look[0]];
    moves.push(
      cameraMove('camera-back', scale(look, -1), CAMERA_BACK_m),
      cameraMove('camera-left', scale(right, -1), CAMERA_ASIDE_m),
      cameraMove('camera-right', right, CAMERA_ASIDE_m),
    );
  }
  return moves.filter((move) => move.reach_m > 0);
}

function lampMove(change: ChangeKind, direction: Vec3, reach_m: number): Move {
  return { change, of: 'lamp', direction, reach_m };
}

function cameraMove(change: ChangeKind, direction: Vec3, reach_m: number): Move {
  return { change, of: 'camera', direction, reach_m };
}

/** Its direction on plan; null straight up or down. */
function onPlan([x, , z]: Vec3): Vec3 | null {
  return Math.hypot(x, z) < 1e-6 ? null : normalize([x, 0, z]);
}
