import { describe, expect, it } from 'vitest';
import { angleOfShutter_deg, shutterOfAngle_s } from '../../../src/core/optics/shutter-angle.ts';

describe('shutter angle', () => {
  it.each([
    // published: a half-open shutter at these rates, a cinematography forum (25 fps → 1/50)
    [24, 48],
    [25, 50],
    [29.97, 59.94],
    [30, 60],
    [48, 96],
  ])('of 180° at %d fps is 1/%d s', (rate_fps, per_s) => {
    expect(shutterOfAngle_s(180, rate_fps)).toBeCloseTo(1 / per_s, 14);
    expect(angleOfShutter_deg(1 / per_s, rate_fps)).toBeCloseTo(180, 11);
  });

  it('refuses more than a full turn', () => {
    expect(() => shutterOfAngle_s(361, 24)).toThrow('it must be at most 360°');
    expect(() => shutterOfAngle_s(180, 0)).toThrow('frame rate in frames per second is 0');
  });
});
