import { createStore, type StoreApi } from 'zustand/vanilla';
import { madeOnce } from '../../core/memo/made-once.ts';
import type { EditorState } from './editor-state.ts';
import type { EditorStore } from './editor-store.ts';

/** Half a frame: nobody sees that what is in hand waited so long. */
const HOLD_ms = 8;
/** Where numbers were not there in time, so many moves are drawn without waiting. */
const MOVES_UNHELD = 4;

/**
 * The state as the page draws it: the store's, but while something is dragged a move waits a moment for its straight light, so
 * that both are drawn at once. Drawn by itself, the move keeps the page busy for a frame, and its numbers wait for that. One for
 * each store.
 */
export const drawnState = madeOnce((store: EditorStore): StoreApi<EditorState> => {
  const drawn = createStore<EditorState>(() => store.getState());
  let held: ReturnType<typeof setTimeout> | undefined;
  let unheld = 0;

  const draw = () => {
    clearTimeout(held);
    held = undefined;
    drawn.setState(store.getState(), true);
  };
  const late = () => {
    unheld = MOVES_UNHELD;
    draw();
  };

  store.subscribe((now, before) => {
    // A key goes on from what is drawn, and would lose the steps that are not.
    const waits = now.gesture === 'drag' && now.reading?.scene !== now.scene;
    const moved = now.scene !== before.scene;
    if (!waits) return draw();
    if (held !== undefined) return;
    if (moved && unheld === 0) held = setTimeout(late, HOLD_ms);
    else {
      if (moved) unheld--;
      draw();
    }
  });
  return drawn;
});
