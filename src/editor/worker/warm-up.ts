import type { Command } from '../../scene/commands/command.ts';
import type { Scene } from '../store/editor-state.ts';
import type { EditorStore } from '../store/editor-store.ts';
import { editedScene } from '../store/edits.ts';

/** So often a lamp is moved: further moves get no quicker by it. */
const MOVES = 12;
/** Too little for any figure; not nothing, so that it is worked out anew. */
const STEP_m = 1e-4;

/**
 * Does in idle time what a drag will do, and drops what comes of it: browsers compile code that has run a few times, and the first
 * moves of the first drag would take twice as long as all that follow. A lamp is moved, checked and read, and the page takes up
 * what it shows already as if it had just been read. Leaves off as soon as anything changes.
 */
export function warmUp(store: EditorStore, read: (scene: Scene) => Promise<unknown>): void {
  if (typeof requestIdleCallback === 'undefined') return;
  const { scene, gesture } = store.getState();
  const lamp = scene?.document.lamps?.[0];
  if (!scene || !lamp || gesture) return;
  const [x, y, z] = lamp.position_m;

  const move = async (number: number) => {
    const state = store.getState();
    if (number > MOVES || state.scene !== scene || state.gesture) return;
    const position_m = [x + number * STEP_m, y, z];
    const command = { do: 'change', id: lamp.id, patch: { position_m } } as Command;
    const moved = editedScene(state, [command]).scene;
    if (!moved) return;
    await read(moved).catch(() => {});
    const { reading, looks, grounds } = store.getState();
    if (store.getState().gesture || reading?.scene !== scene) return;
    store.setState({ reading: { ...reading }, looks: new Map(looks), grounds: new Map(grounds) });
    requestIdleCallback(() => void move(number + 1));
  };
  requestIdleCallback(() => void move(1));
}
