import type { LightModel } from '../../core/light-model/light-model.ts';
import { findGlints } from '../../core/mirror/find-glints.ts';
import { burnsInFrame, CLIP_stops, type Glint } from '../../core/mirror/glint.ts';
import type { Camera } from '../schema/camera.ts';
import type { SceneDocument } from '../schema/document.ts';
import { glintView } from './find-scene-glints.ts';

/** The glints that burn white in a camera's frame, brightest first; of some lamps only, by index, where they are given. */
export function burningGlints(
  document: SceneDocument,
  model: LightModel,
  camera: Camera,
  lamps?: readonly number[],
  clip_stops: number = CLIP_stops,
): readonly Glint[] {
  const found = findGlints(model, glintView(document, camera), {
    ...(lamps ? { lamps } : {}),
    clip_stops,
    least_stops: clip_stops,
    inFrameOnly: true,
    withoutPatch: true,
  });
  return found.filter((glint) => burnsInFrame(glint, clip_stops));
}
