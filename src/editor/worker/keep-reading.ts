import type { MeterReport } from '../../scene/meter/meter-scene.ts';
import type { EditorState, Extent, Scene, ShownReading } from '../store/editor-state.ts';
import type { EditorStore } from '../store/editor-store.ts';
import { cameraShown, setupShown } from '../store/shown-scene.ts';
import { deskTalk } from './desk-talk.ts';
import { correctionsHeard, hear } from './heard-readings.ts';
import { latestWins } from './latest-wins.ts';
import type { LampLook, ReadingDesk } from './reading-desk.ts';
import { warmUp } from './warm-up.ts';

/** Wanted numerical error of straight light, 95 %: far below what a meter shows. */
const ERROR_STRAIGHT_stops = 0.1;

/**
 * Keeps the numbers in the store those of the scene in the store. Straight light follows every edit at once; then, when nothing
 * moves, all light is read, each at a desk of its own, so that the quick one never waits for the thorough one, nor shares the
 * processor with it. All light takes the whole machine: not before `leave`. Returns a way to stop.
 */
export function keepReading(
  store: EditorStore,
  quick: ReadingDesk,
  thorough: ReadingDesk,
  leave: Promise<void> = Promise.resolve(),
): () => void {
  let stopped = false;
  const askQuick = deskTalk(quick);
  const askThorough = deskTalk(thorough);
  let straightOf: Wanted | null = null;
  let warm = false;

  const readStraight = (state: EditorState, { scene, camera, setup }: Wanted) =>
    askQuick(scene, {
      camera,
      setup,
      light: 'direct',
      error_stops: ERROR_STRAIGHT_stops,
      drawn: true,
      corrections: correctionsHeard(state),
    });

  const beWarm = async (what: Wanted) => {
    if (warm) return;
    warm = true;
    await leave;
    warmUp(store, (scene) => readStraight(store.getState(), { ...what, scene }));
  };

  const show = (what: Wanted, extent: Extent, report: MeterReport, asked_ms: number) => {
    const { scene, camera, setup } = what;
    const latency_ms = performance.now() - asked_ms;
    const reading: ShownReading = { scene, camera, setup, extent, report, problems: [], latency_ms };
    store.setState({ reading, ...(extent === 'all' ? { readingFailure: null } : {}) });
  };
  const fail = (error: unknown) => {
    if (!stopped) store.setState({ readingFailure: (error as Error).message });
  };

  const straight = latestWins(async () => {
    const asked = store.getState();
    const what = wanted(asked);
    if (!what || stopped) return;
    if (straightOf && same(straightOf, what)) return all();
    const asked_ms = performance.now();
    try {
      const answer = await readStraight(asked, what);
      if (stopped || !answer) return;
      straightOf = what;
      const { report, problems, looks, stage, grounds } = answer;
      const state = store.getState();
      store.setState({
        ...(looks ? { looks: sameWhereEqual(state.looks, looks) } : {}),
        ...(stage ? { stage } : {}),
        ...(grounds ? { grounds } : {}),
      });
      if (!report) {
        const latency_ms = performance.now() - asked_ms;
        store.setState({
          reading: { ...what, extent: 'all', report, problems, latency_ms },
          readingFailure: null,
        });
      } else {
        show(what, 'straight', report, asked_ms);
        beWarm(what);
      }
    } catch (error) {
      fail(error);
    }
    all();
  });

  const all = latestWins(async () => {
    await leave;
    const state = store.getState();
    const what = wanted(state);
    if (!what || stopped || state.gesture) return;
    const { scene, camera, setup } = what;
    const asked_ms = performance.now();
    const still = () => !stopped && !store.getState().gesture && same(what, wanted(store.getState()));
    // Reports come on a channel of their own and may come in after the answer.
    let answered = false;
    try {
      const answer = await askThorough(scene, { camera, setup, light: 'all', drawn: false }, (report) => {
        if (!answered && still()) show(what, 'settling', report, asked_ms);
      });
      answered = true;
      if (answer && !stopped && state.openings === store.getState().openings)
        hear(store, { readings: scene.document.readings, corrections: answer.corrections });
      if (!answer?.report || !still()) return;
      show(what, 'all', answer.report, asked_ms);
    } catch (error) {
      fail(error);
    }
  });

  const unsubscribe = store.subscribe((now, before) => {
    if (!RELEVANT.some((part) => now[part] !== before[part])) return;
    thorough.leaveOff();
    straight();
  });
  straight();
  return () => {
    stopped = true;
    unsubscribe();
  };
}

const RELEVANT = ['scene', 'camera', 'setup', 'gesture'] as const satisfies readonly (keyof EditorState)[];

interface Wanted {
  readonly scene: Scene;
  readonly camera: string | undefined;
  readonly setup: string | undefined;
}

function wanted(state: EditorState): Wanted | null {
  const { scene } = state;
  return scene && { scene, camera: cameraShown(state)?.id, setup: setupShown(state) };
}

function same(one: Wanted, other: Wanted | null): boolean {
  return other?.scene === one.scene && other.camera === one.camera && other.setup === one.setup;
}

/** Looks that are what they were stay the same objects, so that what is drawn from them is not drawn anew. */
function sameWhereEqual(
  before: ReadonlyMap<string, LampLook>,
  now: readonly LampLook[],
): ReadonlyMap<string, LampLook> {
  const looks = now.map((look) => {
    const known = before.get(look.id);
    return known && JSON.stringify(known) === JSON.stringify(look) ? known : look;
  });
  const unchanged = before.size === looks.length && looks.every((look) => before.get(look.id) === look);
  return unchanged ? before : new Map(looks.map((look) => [look.id, look]));
}
