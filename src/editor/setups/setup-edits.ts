import { makeSetup } from '../../scene/building/make-setup.ts';
import type { Setup } from '../../scene/schema/setup.ts';
import { surroundingsShown } from '../building/surroundings-shown.ts';
import type { EditorState } from '../store/editor-state.ts';
import type { EditorStore } from '../store/editor-store.ts';
import { edit } from '../store/edits.ts';
import { setupShown } from '../store/shown-scene.ts';

const NO_SETUPS: readonly Setup[] = [];

/** The scene's setups in shooting order. */
export function setupsOf({ scene }: EditorState): readonly Setup[] {
  return scene?.document.setups ?? NO_SETUPS;
}

export function setupNamed(state: EditorState, id: string | undefined): Setup | undefined {
  return setupsOf(state).find((setup) => setup.id === id);
}

/** As lists and titles call it: "1a · Backlight only"; of nothing, "Base". */
export function setupTitle(setup: Pick<Setup, 'id' | 'name'> | undefined): string {
  if (!setup) return 'Base';
  return setup.name ? `${setup.id} · ${setup.name}` : setup.id;
}

export function showSetup(store: EditorStore, setup: string | undefined): void {
  if (store.getState().setup !== setup) store.setState({ setup, refusedEdit: null });
}

/** A setup that begins as what is shown, right after it, and is shown from now on. Returns whether it was taken. */
export function addSetup(store: EditorStore): boolean {
  const state = store.getState();
  const surroundings = surroundingsShown(state);
  if (!surroundings) return false;
  const { commands, chosen, step } = makeSetup(surroundings);
  const after = setupsOf(state).findIndex(({ id }) => id === setupShown(state));
  const placed = commands.map((command) =>
    command.do === 'add' && after >= 0 ? { ...command, index: after + 1 } : command,
  );
  if (!edit(store, placed, step)) return false;
  showSetup(store, chosen[0]);
  return true;
}

/** An empty name takes the name away: the setup is then called by its id. */
export function renameSetup(store: EditorStore, id: string, name: string): boolean {
  const setup = setupNamed(store.getState(), id);
  if (!setup) return false;
  const wanted = name.trim();
  if (wanted === (setup.name ?? '')) return true;
  return edit(
    store,
    { do: 'change', id, patch: { name: wanted === '' ? null : wanted } },
    `Rename setup ${setupTitle(setup)}`,
  );
}

/** Puts a setup at a place of the shooting order, counted without it; beyond the ends is at the end. */
export function placeSetup(store: EditorStore, id: string, index: number): boolean {
  const setups = setupsOf(store.getState());
  const from = setups.findIndex((setup) => setup.id === id);
  const to = Math.min(setups.length - 1, Math.max(0, index));
  if (from < 0 || from === to) return false;
  return edit(store, { do: 'move', id, index: to }, `Shoot ${setupTitle(setups[from])} at another time`);
}

export function moveSetup(store: EditorStore, id: string, by: -1 | 1): boolean {
  return placeSetup(store, id, setupsOf(store.getState()).findIndex((setup) => setup.id === id) + by);
}

/** The one before it in the shooting order is shown then, if it was shown. */
export function removeSetup(store: EditorStore, id: string): boolean {
  const state = store.getState();
  const setups = setupsOf(state);
  const at = setups.findIndex((setup) => setup.id === id);
  if (at < 0 || !edit(store, { do: 'remove', id }, `Remove setup ${setupTitle(setups[at])}`)) return false;
  if (state.setup === id) showSetup(store, setups[at - 1]?.id);
  return true;
}
