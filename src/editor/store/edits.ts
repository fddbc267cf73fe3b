import { applyCommands } from '../../scene/commands/apply-command.ts';
import type { Command } from '../../scene/commands/command.ts';
import { type Problem, problemText } from '../../scene/problems/problem.ts';
import { editAllInSetup } from '../../scene/setups/edit-in-setup.ts';
import type { EditorState, Gesture, Scene } from './editor-state.ts';
import type { EditorStore } from './editor-store.ts';
import { nameOfStep } from './name-of-step.ts';
import { setupShown } from './shown-scene.ts';

/**
 * Edits the scene, or says on the page why not; several commands are taken all or none, as one step. While a setup is shown,
 * a change becomes the setup's own. `step` is what undo calls it. Returns whether the edit was taken.
 */
export function edit(store: EditorStore, commands: Command | readonly Command[], step?: string): boolean {
  const state = store.getState();
  const { scene, gesture } = state;
  if (!scene) return false;
  const list = Array.isArray(commands) ? (commands as readonly Command[]) : [commands as Command];
  const edited = editedScene(state, list);
  if (edited.problems) {
    const first = edited.problems[0];
    store.setState({ refusedEdit: first ? problemText(first) : 'This change is not possible.' });
    return false;
  }
  if (edited.scene === scene) return true;
  store.setState({
    scene: edited.scene,
    step: step ?? (list[0] ? nameOfStep(scene.document, list[0]) : ''),
    refusedEdit: null,
  });
  // The first change of a gesture recorded what was there before it; the rest of the gesture belongs to that step.
  if (gesture) store.temporal.getState().pause();
  return true;
}

type Edited =
  | { readonly scene: Scene; readonly problems?: never }
  | { readonly scene?: never; readonly problems: readonly Problem[] };

/** What the scene would come to by an edit: the same object where nothing changes. The state must have a scene. */
export function editedScene(state: EditorState, commands: readonly Command[]): Edited {
  const scene = state.scene!;
  const setup = setupShown(state);
  const { document, problems } =
    setup === undefined
      ? applyCommands(scene.document, commands)
      : editAllInSetup(scene.document, setup, commands);
  if (problems) return { problems };
  return { scene: document === scene.document ? scene : { ...scene, document } };
}

/** From here to `endGesture` all edits are one step of history. */
export function beginGesture(store: EditorStore, gesture: Gesture): void {
  if (!store.getState().gesture) store.setState({ gesture });
}

export function endGesture(store: EditorStore): void {
  if (!store.getState().gesture) return;
  store.temporal.getState().resume();
  store.setState({ gesture: null });
}

export function undo(store: EditorStore): void {
  endGesture(store);
  // The first scene has nothing before it but the empty page, which is not a place to go back to.
  if (canUndo(store.temporal.getState().pastStates)) store.temporal.getState().undo();
  store.setState({ refusedEdit: null });
}

export function redo(store: EditorStore): void {
  endGesture(store);
  store.temporal.getState().redo();
  store.setState({ refusedEdit: null });
}

export function canUndo(pastStates: readonly { scene?: Scene | null }[]): boolean {
  return Boolean(pastStates.at(-1)?.scene);
}
