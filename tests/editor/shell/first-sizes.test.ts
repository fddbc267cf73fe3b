import { describe, expect, it } from 'vitest';
import { firstSizes } from '../../../src/editor/shell/first-sizes.ts';

const MOUSE = { lane_px: 36, touch_px: 44 };
const FINGER = { lane_px: 44, touch_px: 44 };
/** As `rule-layout.ts` has lanes on a low page, whatever the hand. */
const FINGER_LOW = { lane_px: 36, touch_px: 44 };

describe('what the parts of the page take at first', () => {
  it('leaves the stop rule all its lanes, whatever the window', () => {
    for (const height_px of [600, 700, 800, 1080, 1440]) {
      for (const hand of [MOUSE, FINGER]) {
        const { rule_px } = firstSizes({ width_px: 1280, height_px, ...hand, wide: true });
        // Derived: head, four lanes, and at least the ruler of 58 px under them.
        expect(rule_px).toBeGreaterThanOrEqual(hand.touch_px + 4 * hand.lane_px + 58);
      }
    }
  });

  it('gives the frame no more width than its picture can fill, nor so much that the plan cannot be read', () => {
    const low = firstSizes({ width_px: 1280, height_px: 800, ...FINGER, wide: true });
    // Derived: 800 less 148 round the desk, 290 of rule, 6 between, 106 of tools and words leaves 250 for a picture of 16 : 9.
    expect(low.frame_px).toBe(Math.round((250 * 16) / 9 + 18));
    // Lower still, its tools need the width.
    expect(firstSizes({ width_px: 1024, height_px: 560, ...FINGER_LOW, wide: true }).frame_px).toBe(376);
    const high = firstSizes({ width_px: 1280, height_px: 1600, ...FINGER, wide: true });
    // Derived: 1280 less 12, 384 of panels and 6; of the 878 left 36 % are the plan's, and 6 between.
    expect(high.frame_px).toBe(Math.round(878 - 0.36 * 878 - 6));
  });

  it('takes edges from a low page for its picture', () => {
    const { frame_px } = firstSizes({ width_px: 1024, height_px: 700, ...FINGER_LOW, wide: true });
    // Derived: 1024 less 12, 316 of panels and 6 leaves 690 for frame and plan; less 284 of plan and 6 between.
    expect(frame_px).toBe(400);
  });

  it('gives an upright tablet’s frame all the width but the plan’s, and the height that its picture needs', () => {
    const { frame_px, above_px } = firstSizes({ width_px: 810, height_px: 1080, ...FINGER, wide: false });
    expect(810 - 12 - 6 - frame_px).toBeGreaterThanOrEqual(284);
    expect(frame_px).toBeGreaterThan(0.6 * 810);
    expect(above_px).toBe(Math.round(((frame_px - 18) * 9) / 16 + 106));
  });
});
