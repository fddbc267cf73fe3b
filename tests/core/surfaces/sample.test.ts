import { describe, expect, it } from 'vitest';
import type { Vec3 } from '../../../src/core/math/vec3.ts';
import { evaluateSurface, glossyShare, lobePdf } from '../../../src/core/surfaces/evaluate.ts';
import { metalIndex } from '../../../src/core/surfaces/metal-index.ts';
import { newSurfaceSample, sampleSurface } from '../../../src/core/surfaces/sample.ts';
import { type SurfaceOptics, surfaceOptics } from '../../../src/core/surfaces/surface-optics.ts';
import { tilted } from './support/hemisphere.ts';
import { shippedMetal } from './support/metals.ts';

const nickel = metalIndex(shippedMetal('nickel'));
const made = (reflectance: Vec3, roughness: number, coatIor: number | null, metal = false): SurfaceOptics =>
  surfaceOptics({ reflectance, metal: metal ? nickel : null, roughness, coatIor });

const sample = newSurfaceSample();
const CORNERS = [0, 0.5, 1 - 2 ** -32];

describe('a draw', () => {
  it('is a unit direction, finite for every roughness, angle and corner of the cube of random numbers', () => {
    for (const optics of [
      made([1, 1, 1], 0, 1.5),
      made([1, 1, 1], 1, 1.5),
      made([0, 0, 0], 0.3, 1.33),
      made([0.5, 0.5, 0.5], 0, null),
      made([0, 0, 0], 0, null, true),
      made([0, 0, 0], 1, null, true),
    ]) {
      for (const o of [tilted(0), tilted(45), tilted(89.999), [1, 0, 1e-12] as Vec3]) {
        for (const u of CORNERS) {
          for (const v of CORNERS) {
            for (const w of CORNERS) {
              const any = sampleSurface(optics, ...o, u, v, w, true, sample);
              const { x, y, z, pdf, r, g, b } = sample;
              expect(Math.hypot(x, y, z)).toBeCloseTo(1, 9);
              for (const value of [pdf, r, g, b]) expect(Number.isFinite(value) && value >= 0).toBe(true);
              expect(any).toBe(pdf > 0);
              expect(any).toBe(z > 0);
            }
          }
        }
      }
    }
  });

  it('carries the pdf and f·cos θ/pdf of its lobe', () => {
    const optics = made([0.6, 0.3, 0.1], 0.4, 1.5);
    const f = new Float64Array(3);
    const o = tilted(50);
    for (const w of [0.001, 0.999]) {
      expect(sampleSurface(optics, ...o, 0.3, 0.6, w, true, sample)).toBe(true);
      const { x, y, z, pdf, glossy } = sample;
      expect(glossy).toBe(w < 0.5);
      expect(pdf).toBe(lobePdf(optics, x, y, z, ...o, glossy));
      evaluateSurface(optics, x, y, z, ...o, glossy ? 'glossy' : 'diffuse', f);
      expect([sample.r, sample.g, sample.b]).toEqual(
        [...f].map((value) => expect.closeTo((value * z) / pdf, 12)),
      );
    }
  });

  it('comes from the only lobe there is', () => {
    for (const w of CORNERS) {
      sampleSurface(made([0.5, 0.5, 0.5], 0.3, null), ...tilted(30), 0.5, 0.5, w, true, sample);
      expect(sample.glossy).toBe(false);
      sampleSurface(made([0, 0, 0], 0.3, 1.5), ...tilted(30), 0.5, 0.5, w, true, sample);
      expect(sample.glossy).toBe(true);
      sampleSurface(made([0, 0, 0], 0.3, null, true), ...tilted(30), 0.5, 0.5, w, true, sample);
      expect(sample.glossy).toBe(true);
    }
  });

  it('comes from the coat as often as the coat’s part in the reflected light', () => {
    // derived: E/(E + ρ(1 − E)) with E = 0.04 straight on a smooth coat of 1.5 and ρ = 0.5
    expect(glossyShare(made([0.5, 0.5, 0.5], 0.04, 1.5), 1)).toBeCloseTo(0.04 / 0.52, 4);
  });

  it('off a mirror leaves by the mirror direction with Fresnel’s reflectance', () => {
    // derived: law of reflection; the middle of the cap is within a lobe of 0.15°
    const optics = made([0, 0, 0], 0, null, true);
    const [x, , z] = tilted(60);
    sampleSurface(optics, x, 0, z, 0.3, 0.2, 0.5, true, sample);
    expect(Math.hypot(sample.x + x, sample.y, sample.z - z)).toBeLessThan(0.01);
  });

  it('carries no light from below the surface', () => {
    expect(sampleSurface(made([1, 1, 1], 0.3, 1.5), 0.6, 0, -0.8, 0.5, 0.5, 0.5, true, sample)).toBe(false);
    expect([sample.pdf, sample.r, sample.g, sample.b]).toEqual([0, 0, 0, 0]);
  });
});
