import type { SceneDocument } from '../../scene/schema/document.ts';
import type { EditorState } from '../store/editor-state.ts';
import type { EditorStore } from '../store/editor-store.ts';
import { cameraShown, setupShown } from '../store/shown-scene.ts';
import { changesSince } from './document-changes.ts';
import { latestWins } from './latest-wins.ts';
import type { BesideFiles, ReadingDesk } from './reading-desk.ts';

/** Wanted numerical error, 95 %: coarse enough to follow a finger, fine enough to print. */
const ERROR_MOVING_stops = 0.1;
const ERROR_AT_REST_stops = 0.02;

/** Keeps the numbers in the store those of the scene in the store. Returns a way to stop. */
export function keepReading(store: EditorStore, desk: ReadingDesk): () => void {
  let sent: { document: SceneDocument; beside: BesideFiles } | null = null;
  let stopped = false;

  const ask = latestWins(async () => {
    const state = store.getState();
    const { scene } = state;
    if (!scene || stopped) return;
    const camera = cameraShown(state)?.id;
    const setup = setupShown(state);
    const asked_ms = performance.now();
    try {
      const changes = changesSince(sent?.document ?? null, scene.document);
      const beside = sent?.beside === scene.beside ? {} : { beside: scene.beside };
      sent = scene;
      const coarse = state.gesture;
      const error_stops = coarse ? ERROR_MOVING_stops : ERROR_AT_REST_stops;
      const answer = await desk.read({ changes, ...beside, setup, camera, error_stops });
      if (stopped) return;
      const { report, problems, looks, stage } = answer;
      const latency_ms = performance.now() - asked_ms;
      store.setState({
        reading: { report, problems, scene, camera, setup, coarse, latency_ms },
        readingFailure: null,
        ...(looks.length > 0 || report ? { looks: new Map(looks.map((look) => [look.id, look])) } : {}),
        ...(stage ? { stage } : {}),
      });
    } catch (error) {
      sent = null;
      if (!stopped) store.setState({ reading: null, readingFailure: (error as Error).message });
    }
  });

  const unsubscribe = store.subscribe((now, before) => {
    if (RELEVANT.some((part) => now[part] !== before[part])) ask();
  });
  ask();
  return () => {
    stopped = true;
    unsubscribe();
  };
}

const RELEVANT = ['scene', 'camera', 'setup', 'gesture'] as const satisfies readonly (keyof EditorState)[];
