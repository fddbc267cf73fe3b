import type { EditorState } from '../store/editor-state.ts';
import type { EditorStore } from '../store/editor-store.ts';
import { latestWins } from '../worker/latest-wins.ts';
import type { FrameStore } from './frame-state.ts';
import { frameTalk } from './frame-talk.ts';
import type { WorkerFrameDesk } from './worker-frame-desk.ts';

/** Wanted numerical error, 95 %: what a spot meter shows, in a time that a pointer waits. */
const ERROR_stops = 0.12;

export interface SpotKeeper {
  /** Looks there, 0 to 1 from the left and the top; null looks away. */
  look(at: { readonly u: number; readonly v: number } | null): void;
  stop(): void;
}

/** Reads the spot meter where the pointer is, at a desk of its own that is started when it is first wanted. */
export function keepSpot(
  store: EditorStore,
  frame: FrameStore,
  startDesk: () => WorkerFrameDesk,
): SpotKeeper {
  let desk: WorkerFrameDesk | null = null;
  let ask: ReturnType<typeof frameTalk> | null = null;
  let known: Pick<EditorState, 'scene' | 'setup' | 'camera'> | null = null;

  const read = latestWins(async () => {
    const { spot } = frame.getState();
    const state = store.getState();
    if (!spot || spot.answer || !state.scene) return;
    desk ??= startDesk();
    ask ??= frameTalk(desk);
    try {
      if (!known || !isSame(known, state)) await ask(state, false);
      known = state;
      const answer = await desk.spot(spot.u, spot.v, ERROR_stops);
      if (frame.getState().spot === spot && isSame(state, store.getState()))
        frame.setState({ spot: { ...spot, answer } });
    } catch (error) {
      known = null;
      frame.setState({ spot: null, failure: (error as Error).message });
    }
  });

  const unsubscribe = store.subscribe((now, before) => {
    if (isSame(now, before)) return;
    const { spot } = frame.getState();
    if (!spot) return;
    frame.setState({ spot: { ...spot, answer: null } });
    read();
  });

  return {
    look(at) {
      frame.setState({ spot: at && { ...at, answer: null } });
      if (at) read();
    },
    stop() {
      unsubscribe();
      desk?.close();
    },
  };
}

function isSame(one: Pick<EditorState, 'scene' | 'setup' | 'camera'>, other: typeof one): boolean {
  return one.scene === other.scene && one.setup === other.setup && one.camera === other.camera;
}
