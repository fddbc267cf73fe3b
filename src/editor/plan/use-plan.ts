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
  return usePlan(({ views, projection }) => {
    const scale_px_m = views[projection]?.scale_px_m ?? 1;
    return 2 ** (Math.floor(4 * Math.log2(scale_px_m)) / 4);
  });
}
