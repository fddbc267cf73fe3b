import type { Scene } from '../store/editor-state.ts';
import type { EditorStore } from '../store/editor-store.ts';
import { endGesture } from '../store/edits.ts';

/** What history holds: a scene, and what was done to get there. */
interface Kept {
  readonly scene?: Scene | null;
  readonly step?: string;
}

/** What undo goes back over, the next first, by name. */
export function stepsBack(store: EditorStore): string[] {
  const { pastStates } = store.temporal.getState();
  return namesBack(store.getState(), pastStates);
}

/** What redo brings back, the next first, by name. */
export function stepsForward(store: EditorStore): string[] {
  return namesForward(store.temporal.getState().futureStates);
}

/** The empty page before the first scene is no place to go back to. */
export function namesBack(now: Kept, pastStates: readonly Kept[]): string[] {
  const reachable = pastStates.filter(({ scene }) => scene).length;
  return [...pastStates, now].toReversed().slice(0, reachable).map(nameOf);
}

export function namesForward(futureStates: readonly Kept[]): string[] {
  return futureStates.toReversed().map(nameOf);
}

/** A scene that was opened, not made by a step, has no name of one. */
function nameOf({ step, scene }: Kept): string {
  return step || `Open ${scene?.document.title || 'untitled scene'}`;
}

export function undoSteps(store: EditorStore, count: number): void {
  endGesture(store);
  const steps = Math.min(count, stepsBack(store).length);
  if (steps > 0) store.temporal.getState().undo(steps);
  store.setState({ refusedEdit: null });
}

export function redoSteps(store: EditorStore, count: number): void {
  endGesture(store);
  store.temporal.getState().redo(count);
  store.setState({ refusedEdit: null });
}
