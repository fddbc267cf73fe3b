import { describe, expect, it } from 'vitest';
import { moonIlluminance_lx } from '../../../src/core/sky/moon-illuminance.ts';

/** Parallax 0.951°. */
const MEAN_km = 384_280;

describe('moonlight', () => {
  it('of a full moon is within published bounds', () => {
    // published: about 0.27 lx overhead at the mean distance (magnitude −12.74 → 0.2655 lx outside the atmosphere),
    // 0.32 lx at most (Kyba, Mohar, Posch 2017), 0.05–0.1 lx typical at middle altitudes and below
    const overhead = moonIlluminance_lx(90, 0, MEAN_km);
    expect(Math.abs(overhead - 0.2655)).toBeLessThan(0.1 * 0.2655);
    expect(moonIlluminance_lx(90, 1.5, 356_500)).toBeLessThan(0.33);
    expect(moonIlluminance_lx(90, 1.5, 356_500)).toBeGreaterThan(0.27);
    expect(moonIlluminance_lx(25, 0, MEAN_km)).toBeGreaterThan(0.05);
    expect(moonIlluminance_lx(25, 0, MEAN_km)).toBeLessThan(0.1);
  });

  it('of a quarter moon is a tenth of that', () => {
    // published: quarter moon 0.01 lx within a factor of 3 (handbook table)
    const quarter = moonIlluminance_lx(45, 90, MEAN_km);
    expect(quarter).toBeGreaterThan(0.01 / 3);
    expect(quarter).toBeLessThan(0.03);
    // derived: 0.00868·90 + 2.2e-9·90⁴ = 0.9255 in log₁₀
    expect(Math.log10(moonIlluminance_lx(45, 0, MEAN_km) / quarter)).toBeCloseTo(0.9255, 3);
  });

  it('is none from a moon that has set, and next to none from a new one', () => {
    expect(moonIlluminance_lx(-1, 0, MEAN_km)).toBe(0);
    expect(moonIlluminance_lx(60, 180, MEAN_km)).toBeLessThan(1e-4);
    expect(() => moonIlluminance_lx(60, 0, 0)).toThrow('distance in km is 0');
  });
});
