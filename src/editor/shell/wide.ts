import { useMedia } from './use-media.ts';

/** Whether the page is wide enough for frame, plan and properties side by side. */
export function useWide(): boolean {
  return useMedia('(min-width: 1000px)');
}
