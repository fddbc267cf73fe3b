import type { EditorState } from '../store/editor-state.ts';
import type { EditorStore } from '../store/editor-store.ts';
import { cameraShown, setupShown } from '../store/shown-scene.ts';
import { otherSetup, swapWithOther } from './hold-other.ts';
import { addSetup, moveSetup, removeSetup, setupsOf, showSetup } from './setup-edits.ts';
import { setupsStoreOf } from './setups-state.ts';

/** Something of the setups that the list of commands offers. */
export interface SetupAction {
  readonly id: string;
  readonly name: string;
  readonly keys?: string;
  run(store: EditorStore): void;
  enabled(state: EditorState): boolean;
}

const isShown = (state: EditorState) => setupShown(state) !== undefined;

/** Does something with the setup that is shown. */
function withShown(store: EditorStore, run: (id: string) => void): void {
  const id = setupShown(store.getState());
  if (id !== undefined) run(id);
}

function go(store: EditorStore, by: -1 | 1): void {
  const state = store.getState();
  const order = [undefined, ...setupsOf(state).map(({ id }) => id)];
  const at = order.indexOf(setupShown(state)) + by;
  if (at >= 0 && at < order.length) showSetup(store, order[at]);
}

export const setupActions: readonly SetupAction[] = [
  {
    id: 'setups.new',
    name: 'New setup from what is shown',
    run: (store) => void addSetup(store),
    enabled: ({ scene }) => scene !== null,
  },
  {
    id: 'setups.next',
    name: 'Show the next setup',
    run: (store) => go(store, 1),
    enabled: (state) => setupsOf(state).length > 0,
  },
  { id: 'setups.previous', name: 'Show the setup before', run: (store) => go(store, -1), enabled: isShown },
  { id: 'setups.base', name: 'Show the base', run: (store) => showSetup(store, undefined), enabled: isShown },
  {
    id: 'setups.other',
    name: 'Go over to the other setup, and back',
    keys: 'hold O to look',
    run: swapWithOther,
    enabled: (state) => otherSetup(state, undefined) !== null,
  },
  {
    id: 'setups.rename',
    name: 'Rename the setup that is shown',
    run: (store) => setupsStoreOf(store).setState({ renaming: true }),
    enabled: isShown,
  },
  {
    id: 'setups.earlier',
    name: 'Shoot this setup earlier',
    run: (store) => withShown(store, (id) => moveSetup(store, id, -1)),
    enabled: isShown,
  },
  {
    id: 'setups.later',
    name: 'Shoot this setup later',
    run: (store) => withShown(store, (id) => moveSetup(store, id, 1)),
    enabled: isShown,
  },
  {
    id: 'setups.remove',
    name: 'Remove the setup that is shown',
    run: (store) => withShown(store, (id) => removeSetup(store, id)),
    enabled: isShown,
  },
  {
    id: 'setups.frames',
    name: 'Small frames of the setups, or names alone',
    run: (store) => setupsStoreOf(store).setState(({ open }) => ({ open: !open })),
    enabled: ({ scene }) => scene !== null,
  },
  {
    id: 'setups.build-up',
    name: 'One lamp at a time',
    run: (store) => setupsStoreOf(store).setState({ buildUp: true }),
    enabled: (state) => cameraShown(state) !== undefined,
  },
  {
    id: 'setups.contact-sheet',
    name: 'Contact sheet of all setups',
    run: (store) => setupsStoreOf(store).setState({ allSetups: true }),
    enabled: (state) => cameraShown(state) !== undefined,
  },
];
