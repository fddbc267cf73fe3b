import type { RefObject } from 'react';
import { useSize } from '../stop-rule/use-size.ts';

const LEAST_px = 220;
const MOST_px = 860;
/** Before the first layout. */
const MEANWHILE_px = 420;

/** How wide a chart is drawn, so that a unit of it is a pixel and its words are as large as those round it. */
export function useChartWidth(around: RefObject<HTMLElement | null>): number {
  const { width_px } = useSize(around);
  return width_px === 0 ? MEANWHILE_px : Math.min(MOST_px, Math.max(LEAST_px, width_px));
}
