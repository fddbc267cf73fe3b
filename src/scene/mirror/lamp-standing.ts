import type { LightModel } from '../../core/light-model/light-model.ts';
import type { Camera } from '../schema/camera.ts';
import type { SceneDocument } from '../schema/document.ts';
import type { Lamp } from '../schema/lamp.ts';
import { type Standing, standingOf } from './standing.ts';

/** Feet of a stand or a tripod whose size is not stated: common practice, no source. */
const DEFAULT_FOOT_m = 0.5;

/** A lamp without a stand hangs or is held: it has no foot and no greatest height. */
export function lampStanding(document: SceneDocument, model: LightModel, lamp: Lamp): Standing {
  return standingOf(document, model, {
    position_m: lamp.position_m,
    footRadius_m: lamp.stand ? (lamp.stand.footRadius_m ?? DEFAULT_FOOT_m) : 0,
    maxHeight_m: lamp.stand?.maxHeight_m ?? Infinity,
  });
}

export function cameraStanding(document: SceneDocument, model: LightModel, camera: Camera): Standing {
  return standingOf(document, model, {
    position_m: camera.position_m,
    footRadius_m: DEFAULT_FOOT_m,
    maxHeight_m: Infinity,
  });
}
