import type { Camera } from '../../scene/schema/camera.ts';
import type { SceneDocument } from '../../scene/schema/document.ts';
import type { Lamp } from '../../scene/schema/lamp.ts';
import { applySetup } from '../../scene/setups/apply-setup.ts';
import type { EditorState } from './editor-state.ts';

/** The id that was asked for if the scene (still) has it: undo and other files may have taken it away. */
function present(entries: readonly { id: string }[] | undefined, id: string | undefined): string | undefined {
  return entries?.some((entry) => entry.id === id) ? id : undefined;
}

export function setupShown({ scene, setup }: EditorState): string | undefined {
  return present(scene?.document.setups, setup);
}

export function cameraShown(state: EditorState): Camera | undefined {
  const cameras = state.scene?.document.cameras;
  return cameras?.find(({ id }) => id === state.camera) ?? cameras?.[0];
}

let lastShown: { document: SceneDocument; setup: string | undefined; shown: SceneDocument } | undefined;

/** The document as the chosen setup has it. The same object until scene or setup changes. */
export function documentShown(state: EditorState): SceneDocument | undefined {
  const document = state.scene?.document;
  if (!document) return undefined;
  const setup = setupShown(state);
  if (lastShown?.document === document && lastShown.setup === setup) return lastShown.shown;
  const found = document.setups?.find(({ id }) => id === setup);
  const shown = found ? applySetup(document, found) : document;
  lastShown = { document, setup, shown };
  return shown;
}

export function lampChosen(state: EditorState): Lamp | undefined {
  return documentShown(state)?.lamps?.find(({ id }) => id === state.lamp);
}

/** The mark whose parts are shown: the chosen one, else the first. */
export function markChosen(state: EditorState): string | undefined {
  const marks = state.scene?.document.marks;
  return present(marks, state.mark) ?? marks?.[0]?.id;
}

/**
 * What the numbers on screen are worth: those of another scene (`stale`), of straight light while something moves or until all
 * light is read, not yet as exact as they will be, or the last word (`fresh`).
 */
export type Freshness = 'stale' | 'moving' | 'straight' | 'settling' | 'fresh';

export function readingFreshness(state: EditorState): Freshness {
  const { reading, scene, gesture } = state;
  const itsOwn =
    reading?.scene === scene &&
    reading?.camera === cameraShown(state)?.id &&
    reading?.setup === setupShown(state);
  if (!reading || !itsOwn) return 'stale';
  if (reading.extent === 'straight') return gesture ? 'moving' : 'straight';
  return reading.extent === 'all' ? 'fresh' : 'settling';
}
