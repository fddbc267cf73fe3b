import { useStore } from 'zustand';
import { useEditorStore } from '../store/use-editor.ts';
import { type PlanState, type PlanStore, planStoreOf } from './plan-state.ts';

export function usePlanStore(): PlanStore {
  return planStoreOf(useEditorStore());
}

/** A part of the drawing's state; the selector must return the same object while nothing it shows has changed. */
export function usePlan<T>(select: (state: PlanState) => T): T {
  return useStore(usePlanStore(), select);
}

/** The scale in steps of a quarter octave, for what is laid out anew only when there is clearly more or less room. */
export function useScaleStep(): number {
  return usePlan(({ views, projection }) => scaleStep(views[projection]?.scale_px_m ?? 1));
}

function scaleStep(scale_px_m: number): number {
  return 2 ** (Math.floor(4 * Math.log2(scale_px_m)) / 4);
}

const EDGE_STEP_px = 24;

/** Where an edge of the sheet lies from the zero of the scene, in pixels of the stepped scale and in steps of its own. */
export function useEdgeStep(edge: 'left' | 'right'): number {
  return usePlan(({ views, projection, size }) => {
    const view = views[projection];
    if (!view) return edge === 'left' ? Number.NEGATIVE_INFINITY : Number.POSITIVE_INFINITY;
    const half_m = size.width_px / 2 / view.scale_px_m;
    const at_px = (view.centre_m[0] + (edge === 'left' ? -half_m : half_m)) * scaleStep(view.scale_px_m);
    return EDGE_STEP_px * (edge === 'left' ? Math.ceil : Math.floor)(at_px / EDGE_STEP_px);
  });
}
