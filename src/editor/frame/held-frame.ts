import type { FrameStore } from './frame-state.ts';

const KEY = 'keyfall.frame-held';

/** Takes up whether the frame was held on the last visit, and keeps it. Storage that fails costs the memory of it, nothing else. */
export function keepHeld(frame: FrameStore): void {
  frame.setState({ paused: readHeld() });
  frame.subscribe((now, before) => {
    if (now.paused === before.paused) return;
    try {
      localStorage.setItem(KEY, String(now.paused));
    } catch {
      // It holds for this visit.
    }
  });
}

function readHeld(): boolean {
  try {
    return localStorage.getItem(KEY) === 'true';
  } catch {
    return false;
  }
}
