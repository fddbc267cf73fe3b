import { useSyncExternalStore } from 'react';

/** From here on there is room for frame, plan and properties side by side. */
const WIDE = '(min-width: 1000px)';

const query = () => window.matchMedia(WIDE);

/** Whether the page is wide enough for three columns. */
export function useWide(): boolean {
  return useSyncExternalStore(
    (changed) => {
      const media = query();
      media.addEventListener('change', changed);
      return () => media.removeEventListener('change', changed);
    },
    () => query().matches,
  );
}
