import { useRef } from 'react';
import type { EditorState } from '../store/editor-state.ts';
import { useEditor } from '../store/use-editor.ts';

/** A part of the state as it was when nothing was being dragged: lists of what can be added need not follow a drag. */
export function useResting<T>(select: (state: EditorState) => T): T {
  const held = useRef<{ readonly value: T } | null>(null);
  return useEditor((state) => {
    if (!state.gesture || !held.current) held.current = { value: select(state) };
    return held.current.value;
  });
}
