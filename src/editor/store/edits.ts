import { applyCommand } from '../../scene/commands/apply-command.ts';
import type { Command } from '../../scene/commands/command.ts';
import { problemText } from '../../scene/problems/problem.ts';
import type { Scene } from './editor-state.ts';
import type { EditorStore } from './editor-store.ts';

/** Edits the scene, or says on the page why not. Setups are looked at, not edited: while one is shown nothing is taken. */
export function edit(store: EditorStore, command: Command): void {
  const { scene, setup, gesture } = store.getState();
  if (!scene || setup !== undefined) return;
  const applied = applyCommand(scene.document, command);
  if (applied.problems) {
    const first = applied.problems[0];
    store.setState({ refusedEdit: first ? problemText(first) : 'This change is not possible.' });
    return;
  }
  store.setState({ scene: { ...scene, document: applied.document }, refusedEdit: null });
  // The first change of a gesture recorded what was there before it; the rest of the gesture belongs to that step.
  if (gesture) store.temporal.getState().pause();
}

/** From here to `endGesture` all edits are one step of history. */
export function beginGesture(store: EditorStore): void {
  if (!store.getState().gesture) store.setState({ gesture: true });
}

export function endGesture(store: EditorStore): void {
  if (!store.getState().gesture) return;
  store.temporal.getState().resume();
  store.setState({ gesture: false });
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
