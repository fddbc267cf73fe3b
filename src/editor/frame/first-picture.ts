import type { FrameStore } from './frame-state.ts';

/** So long the picture may keep others waiting. */
const PATIENCE_ms = 3000;

/** When the frame shows its first picture, or has none to show; at the latest after three seconds. */
export function firstPicture(frame: FrameStore): Promise<void> {
  return new Promise((done) => {
    const look = () => {
      const { standIn, progress, paused, problems, failure } = frame.getState();
      if (!standIn && !progress && !paused && problems.length === 0 && failure === null) return;
      unsubscribe();
      clearTimeout(patience);
      done();
    };
    const unsubscribe = frame.subscribe(look);
    const patience = setTimeout(() => {
      unsubscribe();
      done();
    }, PATIENCE_ms);
    look();
  });
}
