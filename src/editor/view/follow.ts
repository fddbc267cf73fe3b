import { useThree } from '@react-three/fiber';
import { useEffect } from 'react';
import type { EditorState } from '../store/editor-state.ts';
import { useEditorStore } from '../store/use-editor.ts';

/**
 * Calls `apply` now and whenever the selected part of the state becomes another object, and asks for a frame: moving
 * things are moved in place, without a pass through React.
 */
export function useFollow<T>(select: (state: EditorState) => T, apply: (value: T) => void): void {
  const store = useEditorStore();
  const invalidate = useThree((three) => three.invalidate);
  useEffect(() => {
    let last = select(store.getState());
    apply(last);
    invalidate();
    return store.subscribe((state) => {
      const value = select(state);
      if (value === last) return;
      last = value;
      apply(value);
      invalidate();
    });
  });
}
