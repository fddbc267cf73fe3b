import { LOW_PAGE_px } from '../shell/low-page.ts';
import { useMedia } from '../shell/use-media.ts';

/** Heights of a lane of the stop rule, and of the needle in it. */
export interface LaneSize {
  readonly lane_px: number;
  readonly needle_px: number;
}

/** As high as a gloved finger. */
export const HIGH_LANES: LaneSize = { lane_px: 44, needle_px: 34 };
/** There a needle takes the finger from beyond its lane. */
const LOW_LANES: LaneSize = { lane_px: 36, needle_px: 28 };

/** High where the screen is touched, be it beside a mouse, and not so low that the picture would be left without room. */
export function useLaneSize(): LaneSize {
  const high = useMedia(`(any-pointer: coarse) and (min-height: ${LOW_PAGE_px + 1}px)`);
  return high ? HIGH_LANES : LOW_LANES;
}
