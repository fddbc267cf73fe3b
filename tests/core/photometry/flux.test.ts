import { describe, expect, it } from 'vitest';
import type { Distribution } from '../../../src/core/photometry/distribution.ts';
import { flux_lm, zonalFlux_lm } from '../../../src/core/photometry/flux.ts';
import { intensityToward } from '../../../src/core/photometry/intensity.ts';
import { IDENTITY } from '../../tolerances.ts';
import { range, table } from './fixture.ts';

const RADIANS = Math.PI / 180;

function beam(beam_deg: number, field_deg: number): Distribution {
  return { kind: 'beam', peak_cd: 1, beam_deg, field_deg };
}

/** Σ (−1)^n ∫ α^(2n+1) e^(−kα^p) dα / (2n+1)! over 0…∞, by ∫ α^(m−1) e^(−kα^p) dα = k^(−m/p) Γ(m/p)/p. */
function narrowBeamFlux(k: number, p: number, gamma: (x: number) => number): number {
  const term = (m: number): number => (k ** (-m / p) * gamma(m / p)) / p;
  return 2 * Math.PI * (term(2) - term(4) / 6 + term(6) / 120 - term(8) / 5040 + term(10) / 362_880);
}

describe('beam flux', () => {
  it('has the closed form of an exponential, p = 1', () => {
    // derived: ∫ e^(−kα) sin α dα over 0…π = (1 + e^(−kπ))/(1 + k²); p = 1 where the angles stand as ln 10 to ln 2.
    for (const beam_deg of [1e-3, 0.5, 10, 60, 100]) {
      const k = (2 * Math.LN2) / (beam_deg * RADIANS);
      const exact = (2 * Math.PI * (1 + Math.exp(-k * Math.PI))) / (1 + k * k);
      expect(Math.abs(flux_lm(beam(beam_deg, beam_deg * Math.log2(10))) / exact - 1)).toBeLessThan(1e-9);
    }
  });

  it('has the series of a narrow Gaussian, p = 2, and of p = 4', () => {
    // derived: term by term from the power series of sin α; Γ(1…5) = 1, 1, 2, 6, 24; Γ(n/2) by recurrence from √π.
    for (const beam_deg of [0.01, 1, 10, 20]) {
      const half = (beam_deg / 2) * RADIANS;
      const factorial = (n: number): number => [1, 1, 1, 2, 6, 24][n]!;
      const gaussian = narrowBeamFlux(Math.LN2 / half ** 2, 2, factorial);
      expect(
        Math.abs(flux_lm(beam(beam_deg, beam_deg * Math.sqrt(Math.log2(10)))) / gaussian - 1),
      ).toBeLessThan(1e-9);
      const root = Math.sqrt(Math.PI);
      const halves: Record<number, number> = { 0.5: root, 1: 1, 1.5: root / 2, 2: 1, 2.5: (3 * root) / 4 };
      const flat = narrowBeamFlux(Math.LN2 / half ** 4, 4, (x) => halves[x]!);
      expect(Math.abs(flux_lm(beam(beam_deg, beam_deg * Math.log2(10) ** 0.25)) / flat - 1)).toBeLessThan(
        1e-9,
      );
    }
  });

  it('approaches the uniform cone as the field closes on the beam', () => {
    // derived: 2π(1 − cos θb/2); the edge is about 1e-6 of the beam wide.
    for (const beam_deg of [1, 20, 120, 180]) {
      const cone = 2 * Math.PI * (1 - Math.cos((beam_deg / 2) * RADIANS));
      expect(Math.abs(flux_lm(beam(beam_deg, beam_deg * (1 + 1e-6))) / cone - 1)).toBeLessThan(3e-6);
    }
  });

  it('agrees with a fine sum over the intensity itself, long tails included', () => {
    // derived: Φ = 2π ∫ I sin α dα by the midpoint rule in α = π·x³, which crowds its points at the axis.
    for (const [beam_deg, field_deg] of [
      [50, 80],
      [5, 170],
      [120, 170],
      [180, 359],
      [30, 31],
    ] as const) {
      const distribution = beam(beam_deg, field_deg);
      const n = 200_000;
      let sum = 0;
      for (let i = 0; i < n; i++) {
        const x = (i + 0.5) / n;
        const alpha = Math.PI * x ** 3;
        const I = intensityToward(distribution, Math.sin(alpha), 0, Math.cos(alpha));
        sum += I * Math.sin(alpha) * 3 * Math.PI * x * x;
      }
      expect(Math.abs(flux_lm(distribution) / ((2 * Math.PI * sum) / n) - 1)).toBeLessThan(1e-8);
    }
  });

  it('stays finite and quick for the most extreme angles it is given', () => {
    for (const [beam_deg, field_deg] of [
      [1e-6, 359],
      [10, 10 * (1 + 1e-12)],
      [1e-9, 2e-9],
    ] as const) {
      expect(flux_lm(beam(beam_deg, field_deg))).toBeGreaterThan(0);
    }
  });
});

describe('Lambertian flux', () => {
  it('is π times the peak', () => {
    // derived: ∫ I0 cos γ dΩ over the front (L21).
    expect(flux_lm({ kind: 'lambert', peak_cd: 1000 / Math.PI })).toBeCloseTo(1000, 9);
  });
});

describe('table flux', () => {
  it('of a constant is the solid angle of the measured range, in every goniometry', () => {
    // derived: 2π(cos γ1 − cos γ2); A: ΔH(sin V2 − sin V1); B: ΔV(sin H2 − sin H1).
    const one = (): number => 1;
    const uneven = [0, 0.5, 3, 10, 45, 46, 90, 140, 180];
    for (const flux of [flux_lm, zonalFlux_lm]) {
      expect(flux(table('C', uneven, [0], one))).toBeCloseTo(4 * Math.PI, 11);
      expect(flux(table('C', uneven, [0, 10, 200, 360], one))).toBeCloseTo(4 * Math.PI, 11);
      expect(flux(table('C', [90, 120, 180], [0], one))).toBeCloseTo(2 * Math.PI, 11);
      const half = Math.PI / 3;
      expect(flux(table('A', [-30, 10, 30], [-45, 0, 15], one))).toBeCloseTo(half, 12);
      expect(flux(table('B', [-45, 0, 15], [-30, 10, 30], one))).toBeCloseTo(half, 12);
    }
  });

  it('integrates what is linear in the angles exactly', () => {
    // derived: ∫ γ sin γ dγ over 0…π = π, so Φ = 2π²; ∫∫ C γ sin γ = 2π²·π in radians. Steps of 1° to 90°.
    const verticals = [0, 10, 20, 21, 31, 90, 180];
    expect(
      Math.abs(flux_lm(table('C', verticals, [0], (_, v) => v * RADIANS)) / (2 * Math.PI ** 2) - 1),
    ).toBeLessThan(IDENTITY);
    const tilted = table('C', verticals, [0, 100, 360], (h, v) => h * v * RADIANS ** 2);
    expect(Math.abs(flux_lm(tilted) / (2 * Math.PI ** 3) - 1)).toBeLessThan(IDENTITY);
    // derived: ∫ (x + 2) cos x dx over −π/2…π/2 = 4, over a turning angle of 1 rad.
    const oneRadian = [0, 20, 1 / RADIANS];
    const latitudes = [-90, -40, 5, 90];
    const a = table('A', latitudes, oneRadian, (_, v) => v * RADIANS + 2);
    const b = table('B', oneRadian, latitudes, (h) => h * RADIANS + 2);
    expect(Math.abs(flux_lm(a) / 4 - 1)).toBeLessThan(IDENTITY);
    expect(Math.abs(flux_lm(b) / 4 - 1)).toBeLessThan(IDENTITY);
  });

  it('keeps its digits on very fine grids, where the closed form cancels', () => {
    // derived: a cone of 0.002° whose candela fall linearly to its edge ε: 2π ∫ (1 − γ/ε) γ dγ = π ε²/3.
    const edge_deg = 0.002;
    const cone = table('C', range(0, edge_deg, 0.0001), [0], (_, v) => 1 - v / edge_deg);
    expect(Math.abs(flux_lm(cone) / ((Math.PI * (edge_deg * RADIANS) ** 2) / 3) - 1)).toBeLessThan(1e-9);
  });

  it('is what the intensity adds up to, point by point', () => {
    // derived: midpoint sum over the sphere of the interpolant that intensityToward returns.
    const wavy = (h: number, v: number): number => 2 + Math.sin(h / 30) * Math.cos(v / 25);
    const grid = range(-90, 90, 15);
    const c = table(
      'C',
      range(0, 180, 15),
      range(0, 360, 15),
      (h, v) => 2 + Math.cos(h * RADIANS) * Math.sin(v * RADIANS),
    );
    for (const distribution of [c, table('A', grid, grid, wavy), table('B', grid, grid, wavy)]) {
      const n = 720;
      let sum = 0;
      for (let i = 0; i < n; i++) {
        const z = -1 + (2 * (i + 0.5)) / n;
        const q = Math.sqrt(1 - z * z);
        for (let j = 0; j < n; j++) {
          const phi = (2 * Math.PI * (j + 0.5)) / n;
          sum += intensityToward(distribution, q * Math.cos(phi), q * Math.sin(phi), z);
        }
      }
      // The half-covered cells at the border of types A and B limit the sum to about 1/n.
      expect(Math.abs(flux_lm(distribution) / ((4 * Math.PI * sum) / n ** 2) - 1)).toBeLessThan(5e-4);
    }
  });
});
