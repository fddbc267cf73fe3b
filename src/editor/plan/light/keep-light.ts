import type { EditorState, Scene } from '../../store/editor-state.ts';
import type { EditorStore } from '../../store/editor-store.ts';
import { cameraShown, lampChosen, setupShown } from '../../store/shown-scene.ts';
import { changesSince } from '../../worker/document-changes.ts';
import { visible } from '../drawing/viewport.ts';
import { LEVELS_m, NOT_WORKING, type PlanState, type PlanStore, type Working } from '../plan-state.ts';
import type { WorkerLightDesk } from './worker-light-desk.ts';

/** So long after the last change of what is asked, or of what is looked at, work begins. */
const CALM_ms = 350;
/** A plan is looked at in larger pieces only with less detail. */
const LARGEST_m = 300;

/**
 * Keeps what the plan draws of light that of the scene in the store, while it is wanted: after every change, when nothing moves
 * any more. Returns a way to stop.
 */
export function keepLight(
  editor: EditorStore,
  plan: PlanStore,
  startDesk: () => WorkerLightDesk,
): () => void {
  let desk: WorkerLightDesk | null = null;
  let told: Scene | null = null;
  let stopped = false;
  const timers: Partial<Record<Kind, ReturnType<typeof setTimeout>>> = {};
  /** What is waited for or worked on, or was last. */
  const begun: Partial<Record<Kind, readonly unknown[]>> = {};
  const finished: Partial<Record<Kind, readonly unknown[]>> = {};

  const show = (kind: Kind, part: Partial<Working<unknown>>) => {
    if (stopped) return;
    plan.setState((state) => ({ [kind]: { ...state[kind], ...part } }) as Partial<PlanState>);
  };

  const asked = (scene: Scene) => {
    const changes = changesSince(told?.document ?? null, scene.document);
    const beside = told?.beside === scene.beside ? {} : { beside: scene.beside };
    told = scene;
    const state = editor.getState();
    return { changes, ...beside, setup: setupShown(state), camera: cameraShown(state)?.id };
  };

  const ask = async (kind: Kind, key: readonly unknown[]) => {
    const state = editor.getState();
    const { scene } = state;
    if (!scene || stopped) return;
    desk ??= startDesk();
    // Shares come on a channel of their own and may come in after the answer.
    const current = () => begun[kind] === key && finished[kind] !== key;
    show(kind, { progress: 0, failure: null });
    try {
      if (kind === 'contours') {
        const { height_m, hold, low_m, high_m, muted } = lightWanted(state, plan.getState());
        const answer = await desk.light(
          { ...asked(scene), height_m, hold, low_m, high_m, muted: [...muted] },
          (share, soFar) => {
            if (!current()) return;
            const part = soFar ? { answer: { found: soFar }, answerKey: key } : {};
            show(kind, { progress: share, ...part });
          },
        );
        finish(kind, key, answer);
      } else {
        const lamp = lampChosen(state)?.id;
        if (lamp === undefined) return show(kind, { progress: null });
        const answer = await desk.clear({ ...asked(scene), lamp }, (share) => {
          if (current()) show(kind, { progress: share });
        });
        finish(kind, key, answer);
      }
    } catch (error) {
      told = null;
      desk?.close();
      desk = null;
      if (current()) show(kind, { progress: null, failure: (error as Error).message });
    }
  };

  const finish = (kind: Kind, key: readonly unknown[], answer: unknown) => {
    if (answer === null || begun[kind] !== key) return;
    finished[kind] = key;
    show(kind, { answer, answerKey: key, progress: null });
  };

  const consider = (kind: Kind) => {
    const [state, planState] = [editor.getState(), plan.getState()];
    const key = wantedKey(kind, state, planState);
    if (!same(begun[kind], key)) {
      clearTimeout(timers[kind]);
      if (begun[kind]) desk?.leaveOff(kind === 'contours' ? 'light' : 'clear');
      const known = planState[kind].answer !== null && key !== null && same(finished[kind], key);
      if (key && !known) {
        begun[kind] = key;
        timers[kind] = setTimeout(() => void ask(kind, key), CALM_ms);
      } else delete begun[kind];
      if (planState[kind].progress !== null) show(kind, { progress: null });
    }
    // Last, for whoever hears of it asks here again.
    if (!isWanted(kind, planState) && plan.getState()[kind] !== NOT_WORKING)
      plan.setState({ [kind]: NOT_WORKING } as Partial<PlanState>);
  };

  const considerAll = () => {
    consider('contours');
    consider('clear');
  };
  const leave = [editor.subscribe(considerAll), plan.subscribe(considerAll)];
  considerAll();
  return () => {
    stopped = true;
    desk?.close();
    for (const off of leave) off();
    for (const timer of Object.values(timers)) clearTimeout(timer);
  };
}

type Kind = 'contours' | 'clear';

function isWanted(kind: Kind, plan: PlanState): boolean {
  return kind === 'contours' ? plan.contoursShown : plan.clearShown;
}

/** All that an answer rests on; null while none is wanted, or something moves. */
export function wantedKey(kind: Kind, state: EditorState, plan: PlanState): readonly unknown[] | null {
  if (!isWanted(kind, plan) || plan.projection !== 'plan' || !state.scene || state.gesture) return null;
  const { document, beside } = state.scene;
  const about = [document, beside, setupShown(state), cameraShown(state)?.id];
  if (kind === 'clear') {
    const lamp = lampChosen(state)?.id;
    return lamp === undefined ? null : [...about, lamp];
  }
  if (plan.views.plan === undefined || plan.size.width_px === 0) return null;
  const { height_m, hold, low_m, high_m, muted } = lightWanted(state, plan);
  return [...about, height_m, hold, ...low_m, ...high_m, muted];
}

function lightWanted(state: EditorState, plan: PlanState) {
  const { low_m, high_m } = visible(plan.views.plan!, plan.size);
  const [across, down] = [piece(low_m[0], high_m[0]), piece(low_m[1], high_m[1])];
  return {
    height_m: LEVELS_m[plan.level],
    hold: plan.meterHold,
    muted: state.muted,
    low_m: [across[0], down[0]] as const,
    high_m: [across[1], down[1]] as const,
  };
}

/** At least so many steps lie within what can be seen. */
const STEPS = 4;

/**
 * What can be seen along one axis, to whole steps outward, so that the sheet can be moved a little without a new question; of
 * more than is looked at, the middle.
 */
function piece(low_m: number, high_m: number): readonly [number, number] {
  const middle_m = (low_m + high_m) / 2;
  const half_m = Math.min(LARGEST_m, high_m - low_m) / 2;
  const step_m = 2 ** Math.floor(Math.log2((2 * half_m) / STEPS));
  return [
    Math.floor((middle_m - half_m) / step_m) * step_m,
    Math.ceil((middle_m + half_m) / step_m) * step_m,
  ];
}

function same(one: readonly unknown[] | undefined, other: readonly unknown[] | null): boolean {
  if (!one || !other) return !one && !other;
  return one.length === other.length && one.every((entry, i) => entry === other[i]);
}

/** Whether what is drawn was worked out for what is wanted now. */
export function isCurrent(kind: Kind, state: EditorState, plan: PlanState): boolean {
  return same(plan[kind].answerKey ?? undefined, wantedKey(kind, state, plan));
}
