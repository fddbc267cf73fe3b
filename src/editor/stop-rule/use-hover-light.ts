import { useRef } from 'react';
import { useEditorStore } from '../store/use-editor.ts';

/** A pointer that only passes lights nothing. */
const DWELL_ms = 120;

/**
 * Lights the mark that a mouse rests on, everywhere, without choosing it: what was lit comes back when the mouse leaves,
 * unless it was kept by choosing.
 */
export function useHoverLight() {
  const store = useEditorStore();
  const resting = useRef<{ timer: number; before: string | undefined; lit: string | null } | null>(null);

  const keep = () => {
    clearTimeout(resting.current?.timer);
    resting.current = null;
  };
  return {
    keep,
    enter(mark: string) {
      clearTimeout(resting.current?.timer);
      const { before = store.getState().mark, lit = null } = resting.current ?? {};
      const timer = window.setTimeout(() => {
        resting.current = { timer, before, lit: mark };
        store.setState({ mark });
      }, DWELL_ms);
      resting.current = { timer, before, lit };
    },
    leave() {
      const { before, lit } = resting.current ?? {};
      keep();
      if (lit && store.getState().mark === lit) store.setState({ mark: before });
    },
  };
}
