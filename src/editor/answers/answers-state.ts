import { createStore, type StoreApi } from 'zustand/vanilla';
import type { SharpRegion } from '../../scene/framing/sharp-region.ts';
import type { Problem } from '../../scene/problems/problem.ts';
import type { Scene } from '../store/editor-state.ts';
import type { AnswerKind, AnswerOf, AskedOf } from '../worker/answer-kinds.ts';
import type { FigureOutline } from '../worker/answer-outlines.ts';

/** What may lie over the frame. */
export type Overlay = 'glints' | 'outlines' | 'inShot' | 'focus';

/** A question as it was asked. */
export interface Asking<K extends AnswerKind = AnswerKind> {
  readonly kind: K;
  readonly scene: Scene;
  readonly setup: string | undefined;
  readonly camera: string | undefined;
  readonly asked: AskedOf<K>;
}

export interface ShownAnswer<K extends AnswerKind = AnswerKind> {
  readonly to: Asking<K>;
  /** Undefined where the scene does not allow the question; `problems` says why. */
  readonly answer: AnswerOf<K> | undefined;
  readonly problems: readonly Problem[];
  /** False while the rest of it is still being worked out. */
  readonly whole: boolean;
}

/** Whether cures of glints are looked for goes by who wants the glints; all else is for the panel to say. */
export type AskedByPanel = Exclude<AnswerKind, 'glints'>;

/** Things to draw over the frame, and of which scene, setup and camera. */
export interface OverFrame<T> {
  readonly scene: Scene;
  readonly setup: string | undefined;
  readonly camera: string;
  readonly items: readonly T[];
}

/** A lamp's mirror image. Places are 0..1 from the left and from the top, beyond that out of frame. */
export interface GlintOverFrame {
  readonly pixel: readonly [number, number];
  readonly stops: number;
  readonly lamp: string;
  readonly lampName: string;
  readonly solid: string;
  readonly solidName: string;
  readonly inFrame: boolean;
  /** White in the picture, and in it. */
  readonly burns: boolean;
}

/** A head or a stand that the camera sees. */
export interface InShotOverFrame {
  readonly lamp: string;
  readonly name: string;
  readonly what: 'head' | 'stand';
  readonly at: { readonly u: number; readonly v: number };
  /** Belongs to the set: seen, and no fault. */
  readonly practical: boolean;
}

export interface AnswersState {
  /** What the frame draws over itself: set by its switches. Only what is wanted is worked out. */
  readonly wanted: ReadonlySet<Overlay>;
  readonly glints: OverFrame<GlintOverFrame> | null;
  readonly outlines: OverFrame<FigureOutline> | null;
  readonly inShot: OverFrame<InShotOverFrame> | null;
  readonly focus: OverFrame<SharpRegion> | null;

  /** How many panels are open that show an answer of this kind. */
  readonly open: ReadonlyMap<AnswerKind, number>;
  /** How each kind is asked, as its panel has it. */
  readonly asked: { readonly [K in AskedByPanel]: AskedOf<K> };
  readonly answers: { readonly [K in AnswerKind]?: ShownAnswer<K> };
  readonly working: { readonly to: Asking; readonly share: number } | null;
  /** Questions that were called off by hand; asked again when they change, or are asked for. */
  readonly calledOff: readonly Asking[];
  /** What kept the last answer from being worked out, in words. */
  readonly failure: string | null;
}

export type AnswersStore = StoreApi<AnswersState>;

export function createAnswersStore(): AnswersStore {
  return createStore<AnswersState>(() => ({
    wanted: new Set(),
    glints: null,
    outlines: null,
    inShot: null,
    focus: null,
    open: new Map(),
    asked: {
      separation: {},
      wardrobe: { figure: null },
      power: {},
      lens: {},
      focus: {},
      night: {},
      walk: {},
      stands: {},
      readings: {},
    },
    answers: {},
    working: null,
    calledOff: [],
    failure: null,
  }));
}
