import { describe, expect, it } from 'vitest';
import { frameSize } from '../../../src/editor/frame/frame-size.ts';

const PANEL = { width_px: 960, height_px: 540 };

describe('how many pixels a frame is traced in', () => {
  it('is all of the panel on a machine that is fast enough', () => {
    // derived: 518 400 pixels at 1000 a millisecond are half a second, bearable at rest
    expect(frameSize(PANEL, 1000, false, null)).toEqual([960, 540]);
  });

  it('is halved until a sample is bearable, more so while something moves', () => {
    // derived: 20 pixels a millisecond for 1.8 s are 36 000, a quarter each way (240 × 135 = 32 400)
    expect(frameSize(PANEL, 20, false, null)).toEqual([240, 135]);
    // derived: for 0.12 s they are 2 400, less than the narrowest frame, which is no narrower than 96
    expect(frameSize(PANEL, 20, true, null)).toEqual([120, 68]);
  });

  it('begins small where nothing is known of the machine', () => {
    expect(frameSize(PANEL, null, false, null)).toEqual([120, 68]);
  });

  it('does not go back and forth between two sizes', () => {
    // derived: 270 pixels a millisecond want 486 000, less than the panel; at once halved, but kept where it is in use
    expect(frameSize(PANEL, 270, false, null)).toEqual([480, 270]);
    expect(frameSize(PANEL, 270, false, [960, 540])).toEqual([960, 540]);
    expect(frameSize(PANEL, 150, false, [960, 540])).toEqual([480, 270]);
  });

  it('is at least a pixel', () => {
    expect(frameSize({ width_px: 1, height_px: 0 }, 1, true, null)).toEqual([1, 1]);
  });
});
