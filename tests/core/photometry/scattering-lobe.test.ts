import { describe, expect, it } from 'vitest';
import {
  lobe_per_sr,
  meanLobeOnRing_per_sr,
  scatteringLobe,
} from '../../../src/core/photometry/scattering-lobe.ts';

const RADIANS = Math.PI / 180;

describe('a scattering lobe', () => {
  it('of 120° is Lambert’s, and of any spread half as strong at half of it', () => {
    // derived: ln ½/ln cos 60° = 1; p(0) = 1/π.
    expect(scatteringLobe(120).exponent).toBeCloseTo(1, 12);
    expect(lobe_per_sr(scatteringLobe(120), 1)).toBeCloseTo(1 / Math.PI, 12);
    for (const spread_deg of [2, 10, 60, 150]) {
      const lobe = scatteringLobe(spread_deg);
      const share = lobe_per_sr(lobe, Math.cos((spread_deg / 2) * RADIANS)) / lobe_per_sr(lobe, 1);
      expect(share).toBeCloseTo(0.5, 9);
    }
  });

  it('of 180° is even over the half sphere', () => {
    // derived: 1/(2π). cos 90° is 6e-17 in floating point, which makes m 0.019 instead of 0.
    for (const cosDelta of [1, 0.7, 0.3])
      expect(lobe_per_sr(scatteringLobe(180), cosDelta) * 2 * Math.PI).toBeCloseTo(1, 1);
  });

  it('sends nothing back', () => {
    expect(lobe_per_sr(scatteringLobe(170), -0.1)).toBe(0);
    expect(lobe_per_sr(scatteringLobe(170), 0)).toBe(0);
  });

  it('is scattered into a whole: its means over all rings add up to 1, seen from anywhere', () => {
    // derived: ∫ p dΩ = 1, over rings about an axis that leans from the lobe by γ.
    for (const spread_deg of [5, 40, 100, 160]) {
      const lobe = scatteringLobe(spread_deg);
      for (const gamma of [0, 3 * RADIANS, 1, 2, Math.PI]) {
        const n = 3000;
        let sum = 0;
        for (let i = 0; i < n; i++) {
          const ring = (Math.PI * (i + 0.5)) / n;
          sum += meanLobeOnRing_per_sr(lobe, gamma, ring) * 2 * Math.PI * Math.sin(ring) * (Math.PI / n);
        }
        expect(Math.abs(sum - 1)).toBeLessThan(2e-4);
      }
    }
  });

  it('has the closed mean of Lambert’s lobe where the ring lies within it', () => {
    // derived: the mean of (A + B cos φ)/π over a turn is A/π while A > B.
    const lobe = scatteringLobe(120);
    for (const [gamma, ring] of [
      [0.2, 0.3],
      [0, 1.5],
      [0.7, 0.8],
    ] as const) {
      const A = Math.cos(gamma) * Math.cos(ring);
      expect(Math.abs(meanLobeOnRing_per_sr(lobe, gamma, ring) / (A / Math.PI) - 1)).toBeLessThan(1e-5);
    }
  });

  it.each([0, 1.9, 181, -20, Number.NaN])('refuses a spread of %d°', (spread_deg) => {
    expect(() => scatteringLobe(spread_deg)).toThrow(`spread of the diffusion is ${spread_deg}`);
  });
});
