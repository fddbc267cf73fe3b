import { LOW_PAGE_px } from './low-page.ts';

/** What the parts of the page take at first, CSS pixels, until a person drags their bars. */
export interface FirstSizes {
  /** The panels at the side of a wide page. */
  readonly side_px: number;
  /** Frame and plan, where the page is narrow and they stand over the panels. */
  readonly above_px: number;
  /** The frame, with the plan beside it. */
  readonly frame_px: number;
  readonly rule_px: number;
}

interface Window_px {
  readonly width_px: number;
  readonly height_px: number;
  /** Height of one lane of the stop rule, and of what is pressed. */
  readonly lane_px: number;
  readonly touch_px: number;
  /** Whether the panels stand beside the rest, and not between the frame and the stop rule. */
  readonly wide: boolean;
}

/** What stands round the rows of buttons, the lanes and the picture: edges, words, the ruler with its flags. */
interface Edges_px {
  /** Over and under the desk, beside two rows of buttons. */
  readonly around_px: number;
  /** Of the stop rule beside its lanes and its lamps' keys. */
  readonly ruler_px: number;
  /** Of the frame's panel beside its picture and its tools. */
  readonly underPicture_px: number;
}
const EDGES: Edges_px = { around_px: 60, ruler_px: 70, underPicture_px: 62 };
const EDGES_LOW: Edges_px = { around_px: 36, ruler_px: 68, underPicture_px: 46 };
/** As many as the needles of a scene like the demo need. */
const LANES = 4;
const BESIDE_PICTURE_px = 18;
const LEAST_PLAN_px = 284;
/** Narrower, the frame's tools take two rows, and the picture loses more than it gains. */
const LEAST_FRAME_px = 376;
const LEAST_SIDE_px = { wide: 316, narrow: 250 };
const BAR_px = 6;
const PICTURE_ASPECT = 16 / 9;

/**
 * The picture comes first: it is given what the stop rule with all its lanes, a plan that can still be read and the panels
 * leave, and no more than it can fill.
 */
export function firstSizes({ width_px, height_px, lane_px, touch_px, wide }: Window_px): FirstSizes {
  const { around_px, ruler_px, underPicture_px } = height_px > LOW_PAGE_px ? EDGES : EDGES_LOW;
  const tall_px = height_px - around_px - 2 * touch_px;
  const ruleNeeds_px = ruler_px + touch_px + LANES * lane_px;
  const rule_px = wide ? Math.max(ruleNeeds_px, Math.min(400, 0.38 * tall_px)) : ruleNeeds_px;
  const side_px = Math.min(560, Math.max(LEAST_SIDE_px.wide, 0.3 * width_px));
  const work_px = width_px - 2 * BAR_px - (wide ? side_px + BAR_px : 0);
  const above_px = tall_px - rule_px - BAR_px - (wide ? 0 : LEAST_SIDE_px.narrow + BAR_px);
  const overAndUnder_px = touch_px + underPicture_px;
  const useful_px = (above_px - overAndUnder_px) * PICTURE_ASPECT + BESIDE_PICTURE_px;
  const plan_px = Math.max(LEAST_PLAN_px, 0.36 * work_px);
  const frame_px = Math.min(Math.max(useful_px, LEAST_FRAME_px), work_px - BAR_px - plan_px);
  const pictureHeight_px = (frame_px - BESIDE_PICTURE_px) / PICTURE_ASPECT;
  return {
    side_px: Math.round(side_px),
    rule_px: Math.round(rule_px),
    frame_px: Math.round(frame_px),
    above_px: Math.round(pictureHeight_px + overAndUnder_px),
  };
}
