import type { FrameStore } from '../frame/frame-state.ts';
import { lampsAlight } from '../stop-rule/muting.ts';
import type { EditorState, Scene } from '../store/editor-state.ts';
import type { EditorStore } from '../store/editor-store.ts';
import { cameraShown, readingFreshness, setupShown } from '../store/shown-scene.ts';
import { changesSince } from '../worker/document-changes.ts';
import { latestWins } from '../worker/latest-wins.ts';
import { type FrameKey, frameKey, sameKey, slotOf } from './frame-key.ts';
import type { SetupsState, SetupsStore } from './setups-state.ts';
import type { LightShown, SmallFrameDesk } from './small-frame-desk.ts';

/** A small frame that is to be seen. */
export interface WantedFrame {
  readonly slot: string;
  readonly key: FrameKey;
  readonly setup: string | undefined;
  readonly light: LightShown;
}

const ALL: LightShown = { kind: 'all' };
const SKY: LightShown = { kind: 'sky' };

/** What is to be seen, the most wanted first: the lamps one at a time, what is shown, the base, the setups in their order. */
export function wantedFrames(
  state: EditorState,
  { open, buildUp, allSetups }: Pick<SetupsState, 'open' | 'buildUp' | 'allSetups'>,
): WantedFrame[] {
  const { scene } = state;
  const camera = cameraShown(state)?.id;
  if (!scene || camera === undefined) return [];
  const shown = setupShown(state);
  const wanted = (setup: string | undefined, light: LightShown): WantedFrame => ({
    slot: slotOf(setup, light),
    key: frameKey(scene, setup, camera),
    setup,
    light,
  });
  const lamps = lampsAlight(state).map(({ id }): LightShown => ({ kind: 'lamp', id }));
  const setups = [undefined, ...(scene.document.setups ?? []).map(({ id }) => id)];
  const others = setups.filter((id) => id !== shown);
  return [
    ...(buildUp ? [SKY, ...lamps].map((light) => wanted(shown, light)) : []),
    ...(open || allSetups ? [shown, ...others].map((id) => wanted(id, ALL)) : []),
  ];
}

/** Whether a slot's frame is of what it should be of. */
export function isCurrent(frames: SetupsState['frames'], { slot, key }: WantedFrame): boolean {
  const kept = frames.get(slot);
  return kept !== undefined && sameKey(kept.key, key);
}

/**
 * Keeps the small frames those of the scene in the store, one after the other, and only while nothing moves and the numbers
 * have been read: they have the first claim on the processor. The lamps one at a time and the sheet of all setups were asked
 * for and are drawn while the frame is held, too. Returns a way to stop.
 */
export function keepSmallFrames(
  store: EditorStore,
  setups: SetupsStore,
  frame: FrameStore,
  desk: SmallFrameDesk,
): () => void {
  let stopped = false;
  let told: Scene | null = null;
  let drawn: WantedFrame | null = null;

  const next = (): WantedFrame | undefined => {
    const state = store.getState();
    const { frames, buildUp, allSetups, open, failure } = setups.getState();
    const busy = readingFreshness(state) !== 'fresh' && state.readingFailure === null;
    if (stopped || state.gesture || busy || failure !== null) return undefined;
    const { paused } = frame.getState();
    const wanted = wantedFrames(state, { buildUp, allSetups, open: open && !paused });
    return wanted.find((one) => !isCurrent(frames, one));
  };

  const draw = async (wanted: WantedFrame) => {
    const state = store.getState();
    const scene = state.scene!;
    const changes = changesSince(told?.document ?? null, scene.document);
    const beside = told?.beside === scene.beside ? {} : { beside: scene.beside };
    told = scene;
    drawn = wanted;
    const { slot, key, setup, light } = wanted;
    const tell = (share: number) => drawn === wanted && setups.setState({ drawing: { slot, share } });
    tell(0);
    try {
      const made = await desk.draw(
        { changes, ...beside, setup, camera: cameraShown(state)?.id, light },
        tell,
      );
      if (drawn !== wanted || stopped) return;
      setups.setState(({ frames }) => ({ frames: new Map(frames).set(slot, { key, frame: made }) }));
    } catch (error) {
      told = null;
      if (!stopped) setups.setState({ failure: (error as Error).message });
    } finally {
      drawn = null;
      if (!stopped) setups.setState({ drawing: null });
    }
  };

  const go = latestWins(async () => {
    for (let wanted = next(); wanted; wanted = next()) await draw(wanted);
  });

  /** What is being drawn is left off as soon as it is not wanted as it is drawn. */
  const check = () => {
    const state = store.getState();
    if (setups.getState().openings !== state.openings) {
      setups.setState({ openings: state.openings, frames: new Map(), failure: null });
    }
    const wanted = drawn && wantedFrames(state, setups.getState()).find(({ slot }) => slot === drawn?.slot);
    if (drawn && (state.gesture || !wanted || !sameKey(wanted.key, drawn.key))) {
      drawn = null;
      desk.stop();
    }
    go();
  };

  const unsubscribes = [
    store.subscribe((now, before) => RELEVANT.some((part) => now[part] !== before[part]) && check()),
    setups.subscribe(
      (now, before) =>
        (['open', 'buildUp', 'allSetups', 'failure'] as const).some((part) => now[part] !== before[part]) &&
        check(),
    ),
    frame.subscribe((now, before) => now.paused !== before.paused && go()),
  ];
  check();
  return () => {
    stopped = true;
    desk.stop();
    for (const unsubscribe of unsubscribes) unsubscribe();
    setups.setState({ drawing: null });
  };
}

const RELEVANT = [
  'scene',
  'camera',
  'setup',
  'gesture',
  'reading',
  'readingFailure',
] as const satisfies readonly (keyof EditorState)[];
