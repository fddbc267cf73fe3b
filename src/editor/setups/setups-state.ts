import { useStore } from 'zustand';
import { createStore } from 'zustand/vanilla';
import type { MeterReport } from '../../scene/meter/meter-scene.ts';
import type { EditorStore } from '../store/editor-store.ts';
import { useEditorStore } from '../store/use-editor.ts';
import type { FrameKey } from './frame-key.ts';
import { keepOpen } from './open-strip.ts';
import type { SmallFrame } from './small-frame-desk.ts';

/** A small frame and what it was drawn of; null where that cannot be seen. */
export interface KeptFrame {
  readonly key: FrameKey;
  readonly frame: SmallFrame | null;
}

/** The readings in a setup and what they were read of; null where it cannot be metered. */
export interface KeptReadings {
  readonly key: FrameKey;
  readonly report: MeterReport | null;
}

/** What the strip of setups keeps beside the scene: nothing of it is in the document, and undo does not go over it. */
export interface SetupsState {
  /** Of which opened scene the frames are, as the page counts them. */
  readonly openings: number;
  /** Whether the strip shows frames, or names alone. */
  readonly open: boolean;
  /** By slot: see frame-key.ts. */
  readonly frames: ReadonlyMap<string, KeptFrame>;
  readonly readings: ReadonlyMap<string, KeptReadings>;
  /** What is being drawn or read, and the share that is done. */
  readonly drawing: { readonly slot: string; readonly share: number } | null;
  readonly failure: string | null;
  /** The setup that was shown before, and, while the other one is held, the one to go back to. */
  readonly before: string | undefined;
  readonly held: { readonly back: string | undefined } | null;
  /** Lamps are looked at one at a time. */
  readonly buildUp: boolean;
  /** All setups are looked at side by side, as they go on a contact sheet. */
  readonly allSetups: boolean;
  readonly renaming: boolean;
}

const NO_SETUPS_STATE: SetupsState = {
  openings: 0,
  open: false,
  frames: new Map(),
  readings: new Map(),
  drawing: null,
  failure: null,
  before: undefined,
  held: null,
  buildUp: false,
  allSetups: false,
  renaming: false,
};

const createSetupsStore = () => createStore<SetupsState>(() => NO_SETUPS_STATE);
export type SetupsStore = ReturnType<typeof createSetupsStore>;

const ofEditor = new WeakMap<EditorStore, SetupsStore>();

/** The strip's own state that goes with an editor store. */
export function setupsStoreOf(editor: EditorStore): SetupsStore {
  const known = ofEditor.get(editor);
  if (known) return known;
  const setups = createSetupsStore();
  keepOpen(setups);
  ofEditor.set(editor, setups);
  return setups;
}

export function useSetupsStore(): SetupsStore {
  return setupsStoreOf(useEditorStore());
}

/** A part of the strip's state; the selector must return the same object while nothing it shows has changed. */
export function useSetups<T>(select: (state: SetupsState) => T): T {
  return useStore(useSetupsStore(), select);
}
