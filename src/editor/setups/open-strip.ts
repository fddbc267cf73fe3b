import type { SetupsStore } from './setups-state.ts';

const KEY = 'keyfall.setup-frames';
/** From here on the page has room for the frames without being asked; upright, the picture has more use for it. */
const TALL = '(min-height: 1000px) and (min-width: 1000px)';

/** Takes up whether the strip showed frames on the last visit, and keeps it. Storage that fails costs the memory of it. */
export function keepOpen(setups: SetupsStore): void {
  setups.setState({ open: readOpen() });
  setups.subscribe((now, before) => {
    if (now.open === before.open) return;
    try {
      localStorage.setItem(KEY, String(now.open));
    } catch {
      // It holds for this visit.
    }
  });
}

function readOpen(): boolean {
  try {
    const kept = localStorage.getItem(KEY);
    if (kept !== null) return kept === 'true';
  } catch {
    // As on a first visit.
  }
  return typeof window !== 'undefined' && window.matchMedia(TALL).matches;
}
