import { describe, expect, it } from 'vitest';
import { frameSize } from '../../../src/editor/frame/frame-size.ts';

const PANEL = { width_px: 960, height_px: 540 };

describe('how many pixels a frame is traced in', () => {
  it('is all of the panel on a machine that is fast enough', () => {
    // derived: 518 400 pixels at 1000 a millisecond are half a second, bearable at rest
    expect(frameSize(PANEL, 1000, null)).toEqual([960, 540]);
  });

  it('is halved until a sample is bearable', () => {
    // derived: 20 pixels a millisecond for 1.8 s are 36 000, a quarter each way (240 × 135 = 32 400)
    expect(frameSize(PANEL, 20, null)).toEqual([240, 135]);
    // derived: 1 pixel a millisecond are 1 800, less than the narrowest frame, which is no narrower than 96
    expect(frameSize(PANEL, 1, null)).toEqual([120, 68]);
  });

  it('begins small where nothing is known of the machine', () => {
    expect(frameSize(PANEL, null, null)).toEqual([120, 68]);
  });

  it('does not go back and forth between two sizes', () => {
    // derived: 270 pixels a millisecond want 486 000, less than the panel; at once halved, but kept where it is in use
    expect(frameSize(PANEL, 270, null)).toEqual([480, 270]);
    expect(frameSize(PANEL, 270, [960, 540])).toEqual([960, 540]);
    expect(frameSize(PANEL, 150, [960, 540])).toEqual([480, 270]);
  });

  it('is at least a pixel', () => {
    expect(frameSize({ width_px: 1, height_px: 0 }, 1, null)).toEqual([1, 1]);
  });
});
