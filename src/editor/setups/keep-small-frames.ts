import type { FrameStore } from '../frame/frame-state.ts';
import { lampsAlight } from '../stop-rule/muting.ts';
import type { EditorState, Scene } from '../store/editor-state.ts';
import type { EditorStore } from '../store/editor-store.ts';
import { cameraShown, readingFreshness, setupShown } from '../store/shown-scene.ts';
import { changesSince } from '../worker/document-changes.ts';
import { latestWins } from '../worker/latest-wins.ts';
import { type FrameKey, frameKey, readingKey, readingSlot, sameKey, slotOf } from './frame-key.ts';
import type { SetupsState, SetupsStore } from './setups-state.ts';
import type { LightShown, SmallFrameDesk } from './small-frame-desk.ts';

/** Of a setup, what is to be seen. */
interface Wanted {
  readonly slot: string;
  readonly key: FrameKey;
  readonly setup: string | undefined;
}

/** A small frame that is to be seen. */
export interface WantedFrame extends Wanted {
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
  const others = baseAndSetups(scene).filter((id) => id !== shown);
  return [
    ...(buildUp ? [SKY, ...lamps].map((light) => wanted(shown, light)) : []),
    ...(open || allSetups ? [shown, ...others].map((id) => wanted(id, ALL)) : []),
  ];
}

/** The readings that are to be seen: those of every setup, for the sheet of all. */
export function wantedReadings(state: EditorState, { allSetups }: Pick<SetupsState, 'allSetups'>): Wanted[] {
  const { scene } = state;
  const camera = cameraShown(state)?.id;
  if (!allSetups || !scene?.document.marks?.length || camera === undefined) return [];
  return baseAndSetups(scene).map((setup) => ({
    slot: readingSlot(setup),
    key: readingKey(scene, setup, camera),
    setup,
  }));
}

function baseAndSetups({ document }: Scene): readonly (string | undefined)[] {
  return [undefined, ...(document.setups ?? []).map(({ id }) => id)];
}

/** Whether what a slot keeps is of what it should be of. */
export function isCurrent(
  kept: ReadonlyMap<string, { readonly key: FrameKey }>,
  { slot, key }: Wanted,
): boolean {
  const found = kept.get(slot);
  return found !== undefined && sameKey(found.key, key);
}

/**
 * Keeps the small frames those of the scene in the store, one after the other, and only while nothing moves and the numbers
 * have been read: they have the first claim on the processor. The lamps one at a time and the sheet of all setups, with its
 * readings, were asked for and are made while the frame is held, too. Returns a way to stop.
 */
export function keepSmallFrames(
  store: EditorStore,
  setups: SetupsStore,
  frame: FrameStore,
  desk: SmallFrameDesk,
): () => void {
  let stopped = false;
  let told: Scene | null = null;
  let inHand: WantedFrame | Wanted | null = null;

  const next = (): WantedFrame | Wanted | undefined => {
    const state = store.getState();
    const { frames, readings, buildUp, allSetups, open, failure } = setups.getState();
    const busy = readingFreshness(state) !== 'fresh' && state.readingFailure === null;
    if (stopped || state.gesture || busy || failure !== null) return undefined;
    const { paused } = frame.getState();
    // A reading is there many times sooner than a frame.
    return (
      wantedReadings(state, { allSetups }).find((one) => !isCurrent(readings, one)) ??
      wantedFrames(state, { buildUp, allSetups, open: open && !paused }).find(
        (one) => !isCurrent(frames, one),
      )
    );
  };

  const make = async (wanted: WantedFrame | Wanted) => {
    const state = store.getState();
    const scene = state.scene!;
    const changes = changesSince(told?.document ?? null, scene.document);
    const beside = told?.beside === scene.beside ? {} : { beside: scene.beside };
    told = scene;
    inHand = wanted;
    const { slot, key, setup } = wanted;
    const question = { changes, ...beside, setup, camera: cameraShown(state)?.id };
    const isInHand = () => inHand === wanted && !stopped;
    const tell = (share: number) => isInHand() && setups.setState({ drawing: { slot, share } });
    tell(0);
    try {
      if ('light' in wanted) {
        const frame = await desk.draw({ ...question, light: wanted.light }, tell);
        if (isInHand())
          setups.setState(({ frames }) => ({ frames: new Map(frames).set(slot, { key, frame }) }));
      } else {
        const report = await desk.read(question);
        if (isInHand())
          setups.setState(({ readings }) => ({ readings: new Map(readings).set(slot, { key, report }) }));
      }
    } catch (error) {
      told = null;
      if (!stopped) setups.setState({ failure: (error as Error).message });
    } finally {
      inHand = null;
      if (!stopped) setups.setState({ drawing: null });
    }
  };

  const go = latestWins(async () => {
    for (let wanted = next(); wanted; wanted = next()) await make(wanted);
  });

  /** What is in hand is left off as soon as it is not wanted as it is made. */
  const check = () => {
    const state = store.getState();
    if (setups.getState().openings !== state.openings) {
      setups.setState({ openings: state.openings, frames: new Map(), readings: new Map(), failure: null });
    }
    const wanted = [
      ...wantedFrames(state, setups.getState()),
      ...wantedReadings(state, setups.getState()),
    ].find(({ slot }) => slot === inHand?.slot);
    if (inHand && (state.gesture || !wanted || !sameKey(wanted.key, inHand.key))) {
      inHand = null;
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
