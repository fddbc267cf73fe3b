import type { Surroundings } from '../../scene/building/recipe.ts';
import type { EditorState } from '../store/editor-state.ts';
import { cameraShown, documentShown, setupShown } from '../store/shown-scene.ts';

let last: Surroundings | undefined;

/**
 * What new things go by: the scene as it is shown, through the camera that is looked through, beside what is chosen. The same
 * object until one of these changes.
 */
export function surroundingsShown(state: EditorState): Surroundings | undefined {
  const document = documentShown(state);
  if (!document) return undefined;
  const id = cameraShown(state)?.id;
  const camera = document.cameras?.find((one) => one.id === id);
  const { chosen } = state;
  const setup = setupShown(state);
  if (last?.document !== document || last.camera !== camera || last.chosen !== chosen || last.setup !== setup)
    last = { document, camera, chosen, setup };
  return last;
}
