import { chosenCamera } from '../scene/camera/scene-camera.ts';
import type { SceneDocument } from '../scene/schema/document.ts';
import type { OptionValues } from './command.ts';

/** For commands that take a camera but do not need it: throws SceneError for one that is not there. */
export function checkCamera(document: SceneDocument, values: OptionValues): void {
  if (typeof values.camera === 'string') chosenCamera(document, values.camera);
}
