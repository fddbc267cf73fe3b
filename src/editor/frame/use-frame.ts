import { useStore } from 'zustand';
import type { EditorStore } from '../store/editor-store.ts';
import { useEditorStore } from '../store/use-editor.ts';
import { createFrameStore, type FrameState, type FrameStore } from './frame-state.ts';
import { keepHeld } from './held-frame.ts';

const ofEditor = new WeakMap<EditorStore, FrameStore>();

/** The frame's own state that goes with an editor store. */
export function frameStoreOf(editor: EditorStore): FrameStore {
  const known = ofEditor.get(editor);
  if (known) return known;
  const frame = createFrameStore();
  keepHeld(frame);
  ofEditor.set(editor, frame);
  return frame;
}

export function useFrameStore(): FrameStore {
  return frameStoreOf(useEditorStore());
}

/** A part of the frame's state; the selector must return the same object while nothing it shows has changed. */
export function useFrame<T>(select: (state: FrameState) => T): T {
  return useStore(useFrameStore(), select);
}
