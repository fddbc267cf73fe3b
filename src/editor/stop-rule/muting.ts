import type { Lamp } from '../../scene/schema/lamp.ts';
import type { EditorState } from '../store/editor-state.ts';
import type { EditorStore } from '../store/editor-store.ts';
import { documentShown } from '../store/shown-scene.ts';

const NO_LAMPS: readonly Lamp[] = [];

/** Lamps that are on in what is shown: those that can be left out of it. */
export function lampsAlight(state: EditorState): readonly Lamp[] {
  const lamps = documentShown(state)?.lamps ?? NO_LAMPS;
  return lamps.every(isOn) ? lamps : alightOf(lamps);
}

function isOn({ on }: Lamp): boolean {
  return on !== false;
}

const alight = new WeakMap<readonly Lamp[], readonly Lamp[]>();

/** The same list for the same lamps, so that what hangs on it is not drawn anew. */
function alightOf(lamps: readonly Lamp[]): readonly Lamp[] {
  const known = alight.get(lamps) ?? lamps.filter(isOn);
  alight.set(lamps, known);
  return known;
}

/** Leaves a lamp out of what is looked at, or takes it in again. */
export function toggleMuted(store: EditorStore, id: string): void {
  const muted = new Set(store.getState().muted);
  if (!muted.delete(id)) muted.add(id);
  store.setState({ muted });
}

/** Whether this lamp is looked at alone. */
export function isAlone(state: EditorState, id: string): boolean {
  const { muted } = state;
  const lamps = lampsAlight(state);
  return lamps.length > 1 && !muted.has(id) && lamps.every((lamp) => lamp.id === id || muted.has(lamp.id));
}

/** Looks at one lamp alone, or, where it is alone already, at all. */
export function toggleAlone(store: EditorStore, id: string): void {
  const state = store.getState();
  const others = lampsAlight(state).flatMap((lamp) => (lamp.id === id ? [] : [lamp.id]));
  store.setState({ muted: new Set(isAlone(state, id) ? [] : others) });
}

export function unmuteAll(store: EditorStore): void {
  store.setState({ muted: new Set() });
}
