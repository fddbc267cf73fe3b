import type { Overlay } from '../answers/answers-state.ts';
import { answersOf } from '../answers/use-answers.ts';
import type { EditorStore } from '../store/editor-store.ts';
import type { FrameState, FrameStore, Lines, Look } from './frame-state.ts';
import { frameStoreOf } from './use-frame.ts';

/** What can be done with the frame, as the list of commands offers it. */
export interface FrameAction {
  readonly id: string;
  readonly name: string;
  enabled(): boolean;
  run(): void;
}

export const MAIN_LOOKS: readonly (readonly [Look, string])[] = [
  ['picture', 'Picture'],
  ['stops', 'Stops'],
  ['monochrome', 'Grey'],
];
export const OTHER_LOOKS: readonly (readonly [Look, string])[] = [
  ['luminance', 'Luminance'],
  ['normals', 'Which way surfaces face'],
  ['things', 'Things, each its own colour'],
];
export const LINE_NAMES: readonly (readonly [Lines, string])[] = [
  ['none', 'No lines'],
  ['thirds', 'Thirds'],
  ['safe', 'Safe areas'],
  ['both', 'Thirds and safe areas'],
];
export const OVERLAY_NAMES: readonly (readonly [Overlay, string])[] = [
  ['glints', 'Glints, with their stops'],
  ['outlines', 'Outlines of figures'],
  ['inShot', 'Lamps in shot'],
  ['focus', 'Focus range: what is sharp'],
];

/** Where the short name on a button would say little in a list. */
const LOOKS_IN_LIST: Readonly<Partial<Record<Look, string>>> = {
  stops: 'false colour in stops',
  monochrome: 'monochrome',
};

/** What lies over the frame is worked out for as long as it is wanted. */
export function setOverlay(store: EditorStore, overlay: Overlay, on: boolean): void {
  answersOf(store).store.setState(({ wanted }) => {
    const others = [...wanted].filter((one) => one !== overlay);
    return { wanted: new Set(on ? [...others, overlay] : others) };
  });
}

/** The frame as it is shown is kept, to compare with what comes; nothing where there is none yet. */
export async function keepToCompare(frame: FrameStore, title: string): Promise<void> {
  const url = await frame.getState().grab?.();
  if (url) frame.setState({ reference: { url, words: title } });
}

export function frameActions(store: EditorStore): readonly FrameAction[] {
  const frame = frameStoreOf(store);
  const action = (
    id: string,
    name: string,
    change: (state: FrameState) => Partial<FrameState>,
    enabled: (state: FrameState) => boolean = () => true,
  ): FrameAction => ({
    id: `frame.${id}`,
    name,
    enabled: () => enabled(frame.getState()),
    run: () => frame.setState(change),
  });
  const lower = (name: string) => name.charAt(0).toLowerCase() + name.slice(1);
  return [
    ...[...MAIN_LOOKS, ...OTHER_LOOKS].map(([look, name]) =>
      action(look, `Frame: ${LOOKS_IN_LIST[look] ?? lower(name)}`, () => ({ look })),
    ),
    ...OVERLAY_NAMES.map(([overlay, name]) => ({
      id: `frame.over.${overlay}`,
      name: `Over the frame: ${lower(name)}`,
      enabled: () => true,
      run: () => setOverlay(store, overlay, !answersOf(store).store.getState().wanted.has(overlay)),
    })),
    action('ends', 'Over the frame: clipped and lost in noise', ({ marksEnds }) => ({
      marksEnds: !marksEnds,
    })),
    action('smoothed', 'Frame: grain smoothed for the eye, or as it is', ({ smoothed }) => ({
      smoothed: !smoothed,
    })),
    ...LINE_NAMES.map(([lines, name]) =>
      action(`lines.${lines}`, `Over the frame: ${lower(name)}`, () => ({ lines })),
    ),
    {
      id: 'frame.keep',
      name: 'Frame: keep this frame to compare',
      enabled: () => frame.getState().grab !== null,
      run: () => void keepToCompare(frame, store.getState().scene?.document.title ?? ''),
    },
    action(
      'let-go',
      'Frame: let the kept frame go',
      () => ({ reference: null }),
      ({ reference }) => reference !== null,
    ),
    action('hold', 'Frame: hold, or go on', ({ paused }) => ({ paused: !paused })),
    action('export', 'Frame: export as a picture or as light', () => ({ exporting: true })),
  ];
}
