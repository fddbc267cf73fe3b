import type { EditorState } from '../store/editor-state.ts';
import type { EditorStore } from '../store/editor-store.ts';
import { setupShown } from '../store/shown-scene.ts';
import { setupNamed, setupsOf, showSetup } from './setup-edits.ts';
import { type SetupsState, setupsStoreOf } from './setups-state.ts';

/** What is compared with what is shown: what was shown before, else the base, else the first setup. Null without another. */
export function otherSetup(
  state: EditorState,
  before: SetupsState['before'],
): { readonly id: string | undefined } | null {
  const shown = setupShown(state);
  const [first] = setupsOf(state);
  if (before !== undefined && before !== shown && setupNamed(state, before)) return { id: before };
  if (shown !== undefined) return { id: undefined };
  return first ? { id: first.id } : null;
}

/** Shows the other one until it is let go. */
export function holdOther(store: EditorStore): void {
  const setups = setupsStoreOf(store);
  const state = store.getState();
  const { held, before } = setups.getState();
  const other = otherSetup(state, before);
  if (held || !other || state.gesture) return;
  setups.setState({ held: { back: setupShown(state) } });
  showSetup(store, other.id);
}

export function letOtherGo(store: EditorStore): void {
  const setups = setupsStoreOf(store);
  const { held } = setups.getState();
  if (!held) return;
  showSetup(store, held.back);
  setups.setState({ held: null });
}

/** Goes over to the other one and stays there; the same again goes back. */
export function swapWithOther(store: EditorStore): void {
  const other = otherSetup(store.getState(), setupsStoreOf(store).getState().before);
  if (other) showSetup(store, other.id);
}

/** Remembers what was shown before, but for what is only held. Returns a way to stop. */
export function keepBefore(store: EditorStore): () => void {
  const setups = setupsStoreOf(store);
  return store.subscribe((now, before) => {
    if (now.setup === before.setup || now.openings !== before.openings || setups.getState().held) return;
    setups.setState({ before: setupShown({ ...before, scene: now.scene }) });
  });
}

const KEY = 'o';
const OWN_KEYS = 'input, textarea, select, [contenteditable=true], [role=menu], [role=dialog]';

/** O, held down anywhere but in a field. Returns a way to stop. */
export function listenForOther(store: EditorStore): () => void {
  const down = (event: KeyboardEvent) => {
    if (event.key.toLowerCase() !== KEY || event.repeat || event.defaultPrevented) return;
    if (event.ctrlKey || event.metaKey || event.altKey) return;
    if (event.target instanceof Element && event.target.closest(OWN_KEYS)) return;
    holdOther(store);
  };
  const up = (event: KeyboardEvent) => {
    if (event.key.toLowerCase() === KEY) letOtherGo(store);
  };
  const away = () => letOtherGo(store);
  window.addEventListener('keydown', down);
  window.addEventListener('keyup', up);
  window.addEventListener('blur', away);
  return () => {
    window.removeEventListener('keydown', down);
    window.removeEventListener('keyup', up);
    window.removeEventListener('blur', away);
    letOtherGo(store);
  };
}
