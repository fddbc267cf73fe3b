import { createStore } from 'zustand/vanilla';
import type { Vec3 } from '../../core/math/vec3.ts';
import type { EditorStore } from '../store/editor-store.ts';
import type { ThingKind } from './arrange/plan-things.ts';
import type { Flat, Projection } from './drawing/projection.ts';
import type { SheetSize, Viewport } from './drawing/viewport.ts';
import type { Guide } from './hands/snap.ts';
import type { ClearAnswer, LightAnswer } from './light/light-desk.ts';

/** The level that beams are cut at and that light is drawn for. */
export type Level = 'ground' | 'face';
export const LEVELS_m: Readonly<Record<Level, number>> = { ground: 0, face: 1.5 };

/** Which way the meter is held all over the plan: up, or upright toward the camera. */
export type MeterHold = 'up' | 'camera';
export type ContourScale = 'stops' | 'light';

/** Something that is being worked out or was, and for what. */
export interface Working<T> {
  readonly answer: T | null;
  /** Of the answer, so that it can be told from what is asked now. */
  readonly answerKey: readonly unknown[] | null;
  /** 0 to 1 while it is being worked out, else null. */
  readonly progress: number | null;
  readonly failure: string | null;
}

export const NOT_WORKING = { answer: null, answerKey: null, progress: null, failure: null } as const;

/** How the drawing is looked at: nothing of the scene, nothing that undo goes back over. */
export interface PlanState {
  readonly projection: Projection;
  /** Null before the first fit. */
  readonly views: Readonly<Partial<Record<Projection, Viewport>>>;
  readonly size: SheetSize;
  readonly hidden: ReadonlySet<string>;
  readonly locked: ReadonlySet<string>;
  readonly hiddenKinds: ReadonlySet<ThingKind>;
  readonly lockedKinds: ReadonlySet<ThingKind>;
  readonly snapping: boolean;
  readonly level: Level;
  /** What is measured from; and whether the next press sets it. */
  readonly datum_m: Vec3 | null;
  readonly settingDatum: boolean;
  /** While something is dragged. */
  readonly guides: readonly Guide[];
  /** Two corners, in metres on the sheet, of what is being drawn round things. */
  readonly lasso: readonly [Flat, Flat] | null;
  /** The thing that the keys go to. */
  readonly focused: string | null;
  readonly contoursShown: boolean;
  readonly meterHold: MeterHold;
  readonly contourScale: ContourScale;
  readonly clearShown: boolean;
  readonly contours: Working<LightAnswer>;
  readonly clear: Working<ClearAnswer>;
}

const INITIAL: PlanState = {
  projection: 'plan',
  views: {},
  size: { width_px: 0, height_px: 0 },
  hidden: new Set(),
  locked: new Set(),
  hiddenKinds: new Set(),
  lockedKinds: new Set(),
  snapping: true,
  level: 'ground',
  datum_m: null,
  settingDatum: false,
  guides: [],
  lasso: null,
  focused: null,
  contoursShown: false,
  meterHold: 'up',
  contourScale: 'stops',
  clearShown: false,
  contours: NOT_WORKING,
  clear: NOT_WORKING,
};

export type PlanStore = ReturnType<typeof createPlanStore>;

function createPlanStore(editor: EditorStore) {
  const plan = createStore<PlanState>()(() => INITIAL);
  editor.subscribe((now, before) => {
    if (now.openings !== before.openings)
      plan.setState({ ...INITIAL, projection: plan.getState().projection, size: plan.getState().size });
  });
  return plan;
}

const stores = new WeakMap<EditorStore, PlanStore>();

/** The drawing's own state beside the editor's: afresh with every scene that is opened. */
export function planStoreOf(editor: EditorStore): PlanStore {
  const store = stores.get(editor) ?? createPlanStore(editor);
  stores.set(editor, store);
  return store;
}

export function isHidden(
  state: Pick<PlanState, 'hidden' | 'hiddenKinds'>,
  id: string,
  kind: ThingKind,
): boolean {
  return state.hidden.has(id) || state.hiddenKinds.has(kind);
}

export function isLocked(state: PlanState, id: string, kind: ThingKind): boolean {
  return state.locked.has(id) || state.lockedKinds.has(kind);
}

/** The set with the member put in, or taken out where it is in. */
export function toggled<T>(set: ReadonlySet<T>, member: T): ReadonlySet<T> {
  const changed = new Set(set);
  if (!changed.delete(member)) changed.add(member);
  return changed;
}
