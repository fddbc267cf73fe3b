import { describe, expect, it } from 'vitest';
import {
  ALPHA_MIN,
  alphaOfRoughness,
  normalDensity,
  reflectionDensity,
  smithRoot,
  unshadowed,
  visibility,
  visibleNormal,
} from '../../../src/core/surfaces/ggx.ts';
import { QUADRATURE } from '../../tolerances.ts';
import { ALL_HALF_VECTORS, overReflections, tilted } from './support/hemisphere.ts';

const ALPHAS = [ALPHA_MIN, 0.0016, 0.01, 0.09, 0.36, 1];
const ANGLES_deg = [0, 30, 60, 80, 89];

/** Smith's Λ as the papers print it, with the tangent (Walter et al. 2007, Heitz 2014). */
function lambda(alpha: number, theta: number): number {
  return (Math.sqrt(1 + (alpha * Math.tan(theta)) ** 2) - 1) / 2;
}

describe('roughness', () => {
  it('is squared, and held at the floor near a mirror', () => {
    expect(alphaOfRoughness(0.3)).toBe(0.09);
    expect(alphaOfRoughness(1)).toBe(1);
    expect(alphaOfRoughness(0)).toBe(ALPHA_MIN);
  });
});

describe.each(ALPHAS)('microscopic mirrors of α = %f', (alpha) => {
  it('have a projected area of exactly the surface', () => {
    // derived: ∫D·cos θ_h dω = 1 (Heitz 2014, eq. 4); over reflections of o = z, dω_i/(4·o·h) is dω_h
    const area = overReflections(alpha, [0, 0, 1], ALL_HALF_VECTORS, 100, (hx, hy, hz) => {
      return normalDensity(alpha, hx, hy, hz) / 4;
    });
    expect(Math.abs(area - 1)).toBeLessThan(QUADRATURE);
  });

  it('are seen with exactly the projected area of the surface from every side', () => {
    // derived: ∫G₁·max(0, o·h)·D dω_h = cos θ_o (Heitz 2014, eq. 10), that is ∫ reflectionDensity dω_i = 1. The edge
    // where mirrors turn away is cut across by the quadrature, hence 1e-3.
    for (const theta_deg of ANGLES_deg) {
      const o = tilted(theta_deg);
      const seen = overReflections(alpha, o, ALL_HALF_VECTORS, 300, (hx, hy, hz) => {
        return reflectionDensity(alpha, hx, hy, hz, o[2]);
      });
      expect(Math.abs(seen - 1), `${theta_deg}°`).toBeLessThan(1e-3);
    }
  });

  it('hide each other as Smith’s functions in their usual form say', () => {
    // derived: G₂ = 1/(1 + Λ_i + Λ_o), G₁ = 1/(1 + Λ) (Heitz 2014, eqs. 99 and 72)
    for (const i_deg of [0, 20, 70, 89]) {
      for (const o_deg of [0, 45, 89.9]) {
        const [ti, to] = [(i_deg * Math.PI) / 180, (o_deg * Math.PI) / 180];
        const [ci, co] = [Math.cos(ti), Math.cos(to)];
        const G2 = 1 / (1 + lambda(alpha, ti) + lambda(alpha, to));
        const G1 = 1 / (1 + lambda(alpha, to));
        expect(visibility(alpha, ci, co) / (G2 / (4 * ci * co))).toBeCloseTo(1, 9);
        expect(unshadowed(alpha, ci, co)).toBeCloseTo(G2 / G1, 9);
        expect((2 * co) / (co + smithRoot(alpha, co))).toBeCloseTo(G1, 9);
      }
    }
  });

  it('keep their digits in a half vector of two nearly grazing directions', () => {
    // derived: D of the half vector that i was made from. Rounding of i and o to 1e-16 moves a half vector at 89.99° by
    // 1e-12, that is 1e-9 of the narrowest lobe.
    for (const theta_deg of [0, 60, 89.99]) {
      const o = tilted(theta_deg);
      const [sx, sy] = [0.3 * alpha * o[2], 0.7 * alpha];
      const l = Math.hypot(sx, sy, 1);
      const h = [sx / l, sy / l, 1 / l] as const;
      const oh = o[0] * h[0] + o[1] * h[1] + o[2] * h[2];
      const sum = h.map((c) => 2 * oh * c);
      const length = Math.hypot(...sum);
      const i = h.map((c, k) => 2 * oh * c - o[k]!);
      const again = i.map((c, k) => (c + o[k]!) / length);
      const D = normalDensity(alpha, again[0]!, again[1]!, again[2]!);
      expect(Math.abs(D / normalDensity(alpha, ...h) - 1), `${theta_deg}°`).toBeLessThan(1e-8);
    }
  });
});

describe('drawing a visible normal', () => {
  const normal = new Float64Array(3);

  it('gives unit normals that face the eye, down to the last corner of the unit square', () => {
    for (const alpha of ALPHAS) {
      for (const o of [tilted(0), tilted(60), tilted(89.999), tilted(90)]) {
        for (const u of [0, 0.5, 1 - 2 ** -32]) {
          for (const v of [0, 0.25, 0.5, 1 - 2 ** -32]) {
            const phi = 2 * Math.PI * v;
            visibleNormal(alpha, ...o, u, Math.cos(phi), Math.sin(phi), normal);
            const [x, y, z] = normal as unknown as [number, number, number];
            expect(Math.hypot(x, y, z)).toBeCloseTo(1, 12);
            expect(z).toBeGreaterThanOrEqual(0);
            // The last corner at grazing is a mirror seen edge on, exact only to the rounding of c + o.
            expect(o[0] * x + o[1] * y + o[2] * z).toBeGreaterThanOrEqual(-1e-6);
          }
        }
      }
    }
  });
});
