import { describe, expect, it } from 'vitest';
import { motionBlur_px, shutterForBlur } from '../../../src/core/optics/motion-blur.ts';

describe('motion blur', () => {
  it('is 33 pixels for 1.4 m/s at 5 m, 35 mm, 1/50 s, 6000 pixels', () => {
    // derived: 1.4·0.02·35/5 = 0.196 mm of 36 mm; ·6000/36 = 32.67 px
    const move = { speed_m_per_s: 1.4, distance_m: 5, focal_mm: 35, frameWidth_mm: 36, frameWidth_px: 6000 };
    const blur_px = motionBlur_px(move, 0.02);
    expect(Math.abs(blur_px - 32.6667)).toBeLessThan(1e-4);
    // derived: 3/32.667 of 1/50 s = 1/544.4 s, log₂(3/32.667) = −3.445
    const kept = shutterForBlur(blur_px, 0.02, 3);
    expect(Math.abs(1 / kept.shutter_s - 544.44)).toBeLessThan(0.01);
    expect(Math.abs(kept.stops + 3.445)).toBeLessThan(1e-3);
  });

  it('is 5.71 pixels a frame for a pan of a frame in 7 s, 24 fps, 180°, 1920 pixels', () => {
    // common practice, no source (the seven-second rule); derived: 1920/7/48
    const frameWidth_m = (5 * 36) / 35;
    const move = {
      speed_m_per_s: frameWidth_m / 7,
      distance_m: 5,
      focal_mm: 35,
      frameWidth_mm: 36,
      frameWidth_px: 1920,
    };
    expect(Math.abs(motionBlur_px(move, 1 / 48) - 5.71)).toBeLessThan(0.005);
  });

  it('refuses what cannot be seen', () => {
    const move = { speed_m_per_s: 1, distance_m: 0, focal_mm: 35, frameWidth_mm: 36, frameWidth_px: 6000 };
    expect(() => motionBlur_px(move, 0.02)).toThrow('distance in m is 0');
    expect(() => shutterForBlur(0, 0.02, 3)).toThrow('blur in pixels is 0');
  });
});
