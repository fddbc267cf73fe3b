import { useStore } from 'zustand';
import { createStore } from 'zustand/vanilla';

interface TourState {
  /** Place among the steps; null while nobody is shown round. */
  readonly step: number | null;
}

const KEY = 'keyfall.tour';
const SEEN = 'seen';

export const tourStore = createStore<TourState>(() => ({ step: null }));

export function useTour<T>(select: (state: TourState) => T): T {
  return useStore(tourStore, select);
}

export function startTour(): void {
  tourStore.setState({ step: 0 });
}

export function endTour(): void {
  tourStore.setState({ step: null });
}

/** The first time, and never again in this browser. Where nothing can be remembered it would come every time, so it does not. */
export function startTourOnce(): void {
  try {
    if (localStorage.getItem(KEY) === SEEN) return;
    localStorage.setItem(KEY, SEEN);
  } catch {
    return;
  }
  startTour();
}
