import { describe, expect, it } from 'vitest';
import {
  framesInStep,
  nearestSafeShutters,
  safeAngles_deg,
  safeFrameRates_fps,
  takesWholePulses,
} from '../../../src/core/optics/flicker.ts';

const per = (shutters_s: readonly number[]) => shutters_s.map((t) => Number((1 / t).toFixed(6)));

describe('flicker-safe shutters', () => {
  it('take in whole pulses of light', () => {
    // published: n/100 s on 50 Hz, n/120 s on 60 Hz (a photographic handbook page)
    for (const shutter_s of [1 / 100, 1 / 50, 3 / 100, 1 / 25])
      expect(takesWholePulses(shutter_s, 50)).toBe(true);
    for (const shutter_s of [1 / 120, 1 / 60, 1 / 40, 1 / 30])
      expect(takesWholePulses(shutter_s, 60)).toBe(true);
    expect(takesWholePulses(1 / 60, 50)).toBe(false);
    expect(takesWholePulses(1 / 50, 60)).toBe(false);
  });

  it.each([
    // published: 172.8° at 24 fps on 50 Hz, 75–300° at 25 fps on 60 Hz (cinematography forums); the others derived: 360·r·n/(2·Hz)
    [24, 50, [86.4, 172.8, 259.2, 345.6]],
    [24, 60, [72, 144, 216, 288, 360]],
    [25, 60, [75, 150, 225, 300]],
    [25, 50, [90, 180, 270, 360]],
    [30, 50, [108, 216, 324]],
  ])('as angles at %d fps on %d Hz', (rate_fps, mains_Hz, angles) => {
    const got = safeAngles_deg(rate_fps, mains_Hz);
    expect(got).toHaveLength(angles.length);
    for (const [i, angle] of got.entries()) expect(Math.abs(angle - angles[i]!)).toBeLessThan(1e-3);
  });

  it('hold at 23.976 fps too', () => {
    // derived: 360·23.976·n/100 for n = 2, /120 for n = 2
    expect(Math.abs(safeAngles_deg(24_000 / 1001, 50)[1]! - 172.627)).toBeLessThan(1e-3);
    expect(Math.abs(safeAngles_deg(24_000 / 1001, 60)[1]! - 143.856)).toBeLessThan(1e-3);
  });

  it('are not needed at frame rates in step with the pulses', () => {
    // published: 120/n and 100/n (a cinematography forum)
    expect(safeFrameRates_fps(60, 6).slice(1)).toEqual([60, 40, 30, 24, 20]);
    expect(safeFrameRates_fps(50, 5).map((r) => Number(r.toFixed(1)))).toEqual([100, 50, 33.3, 25, 20]);
    expect(framesInStep(24, 60)).toBe(true);
    expect(framesInStep(25, 60)).toBe(false);
    expect(framesInStep(24_000 / 1001, 60)).toBe(false);
    expect(framesInStep(200, 50)).toBe(false);
  });

  it('are found on both sides, with what they cost', () => {
    // derived: 1/60 s on 50 Hz is 1.667 pulses: 1/100 (log₂ 0.6 = −0.737) and 1/50 (log₂ 1.2 = +0.263)
    const { shorter, longer } = nearestSafeShutters(1 / 60, 50);
    expect(per([shorter!.shutter_s, longer.shutter_s])).toEqual([100, 50]);
    expect(Math.abs(shorter!.stops + 0.737)).toBeLessThan(1e-3);
    expect(Math.abs(longer.stops - 0.263)).toBeLessThan(1e-3);
    expect(nearestSafeShutters(1 / 500, 50).shorter).toBeNull();
    expect(per([nearestSafeShutters(0.02, 50).longer.shutter_s])).toEqual([50]);
  });

  it('forgive the rounding of a camera’s dial and no more', () => {
    expect(takesWholePulses(0.02, 50)).toBe(true);
    expect(takesWholePulses(1 / 50.02, 50)).toBe(true);
    expect(takesWholePulses(1 / 48, 50)).toBe(false);
    expect(takesWholePulses(1 / 1000, 50)).toBe(false);
    expect(() => takesWholePulses(0, 50)).toThrow('shutter time in seconds is 0');
  });
});
