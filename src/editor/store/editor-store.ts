import { temporal } from 'zundo';
import { createStore } from 'zustand/vanilla';
import { type EditorState, INITIAL_STATE } from './editor-state.ts';

/** Documents share all that an edit does not touch, so that a long history costs little. */
const STEPS_KEPT = 300;

/** The page's one store. Headless: panels, the view, the worker link and the autosave all hang on to it. */
export function createEditorStore() {
  return createStore<EditorState>()(
    temporal(() => INITIAL_STATE, {
      partialize: ({ scene, step }) => ({ scene, step }),
      equality: (past, current) => past.scene === current.scene,
      limit: STEPS_KEPT,
    }),
  );
}

export type EditorStore = ReturnType<typeof createEditorStore>;
