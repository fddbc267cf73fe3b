import { describe, expect, it } from 'vitest';
import { sunIlluminance_lx } from '../../../src/core/sky/sun-illuminance.ts';

describe('light of the sun by its altitude', () => {
  it.each([
    // published: the table of USNO Circular 171, from memory; rounded to two figures, so compared to 5 %
    [90, 124_000],
    [0, 759],
    [-6, 3.4],
    [-12, 0.0083],
    [-18, 0.00065],
  ])('at %d° is that of the table', (altitude_deg, wanted_lx) => {
    expect(Math.abs(sunIlluminance_lx(altitude_deg) / wanted_lx - 1)).toBeLessThan(0.05);
  });

  it('falls through civil twilight within the ranges of a meteorological glossary', () => {
    // published: AMS Glossary of Meteorology, civil twilight: from 585–410 lx to 3.5–2 lx
    expect(sunIlluminance_lx(-0.83)).toBeGreaterThan(410);
    expect(sunIlluminance_lx(-0.83)).toBeLessThan(585);
    expect(sunIlluminance_lx(-6)).toBeGreaterThan(2);
    expect(sunIlluminance_lx(-6)).toBeLessThan(3.5);
  });

  it('never rises while the sun sinks, and leaps nowhere by more than the fit is good for', () => {
    // derived: two stretches that are each within 0.02 in log₁₀ of one table are within 0.04 of each other where they meet
    for (const join of [20, 5, -0.8, -5, -12])
      expect(Math.abs(Math.log10(sunIlluminance_lx(join) / sunIlluminance_lx(join - 1e-9)))).toBeLessThan(
        0.04,
      );
    let last = sunIlluminance_lx(60);
    for (let a = 59.5; a >= -18; a -= 0.5) {
      const now = sunIlluminance_lx(a);
      expect(now, `${a}°`).toBeLessThan(last);
      last = now;
    }
    expect(sunIlluminance_lx(-18.01)).toBe(0);
  });
});
