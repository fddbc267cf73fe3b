import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  conductorPolarised,
  conductorReflectance,
  dielectricPolarised,
  dielectricReflectance,
} from '../../../src/core/surfaces/fresnel.ts';

const SEED = 4101;
const cosine = fc.double({ min: 1e-6, max: 1, noNaN: true });
const denser = fc.double({ min: 1.0001, max: 4, noNaN: true });

describe('a dielectric interface', () => {
  it('reflects the mean of its two polarisations, each between 0 and 1', () => {
    fc.assert(
      fc.property(cosine, fc.double({ min: 0.25, max: 4, noNaN: true }), (c, n) => {
        const { s, p } = dielectricPolarised(c, n);
        for (const R of [s, p]) expect(R >= 0 && R <= 1).toBe(true);
        expect(Math.abs(dielectricReflectance(c, n) - (s + p) / 2)).toBeLessThan(1e-15);
      }),
      { seed: SEED },
    );
  });

  it('reflects the same from inside at the refracted angle', () => {
    // derived: Stokes' reversibility with Snell's law, sin θ_t = sin θ/n
    fc.assert(
      fc.property(cosine, denser, (c, n) => {
        const inside = Math.sqrt(1 - (1 - c * c) / (n * n));
        expect(Math.abs(dielectricReflectance(inside, 1 / n) - dielectricReflectance(c, n))).toBeLessThan(
          1e-7,
        );
      }),
      { seed: SEED },
    );
  });

  it('reflects everything beyond the critical angle from inside, and at grazing', () => {
    // derived: sin θ_c = 1/n; 41.81° for n = 1.5
    const cosCritical = Math.sqrt(1 - 1 / 1.5 ** 2);
    expect(dielectricReflectance(cosCritical - 1e-9, 1 / 1.5)).toBe(1);
    expect(dielectricReflectance(cosCritical + 1e-3, 1 / 1.5)).toBeLessThan(0.9);
    expect(dielectricPolarised(0.1, 1 / 1.5)).toEqual({ s: 1, p: 1 });
    expect(dielectricReflectance(0, 1.5)).toBe(1);
  });

  it('is not there when both sides have one index', () => {
    for (const c of [1e-6, 0.3, 1]) expect(dielectricReflectance(c, 1)).toBe(0);
  });
});

describe('a conductor', () => {
  it('without absorption is the dielectric of its index', () => {
    // derived: k = 0 turns the conductor equations into the dielectric ones
    fc.assert(
      fc.property(cosine, denser, (c, n) => {
        const metal = conductorPolarised(c, n, 0);
        const glass = dielectricPolarised(c, n);
        expect(Math.abs(metal.s - glass.s)).toBeLessThan(1e-9);
        expect(Math.abs(metal.p - glass.p)).toBeLessThan(1e-9);
      }),
      { seed: SEED },
    );
  });

  it('reflects ((n − 1)² + k²)/((n + 1)² + k²) straight on and everything at grazing', () => {
    fc.assert(
      fc.property(
        fc.double({ min: 0.02, max: 5, noNaN: true }),
        fc.double({ min: 0, max: 9, noNaN: true }),
        (n, k) => {
          const R = ((n - 1) ** 2 + k * k) / ((n + 1) ** 2 + k * k);
          expect(Math.abs(conductorReflectance(1, n, k) - R)).toBeLessThan(1e-12);
          expect(conductorReflectance(0, n, k)).toBe(1);
        },
      ),
      { seed: SEED },
    );
  });

  it('reflects the mean of its two polarisations, s never less than p', () => {
    fc.assert(
      fc.property(
        cosine,
        fc.double({ min: 0.02, max: 5, noNaN: true }),
        fc.double({ min: 0.1, max: 9, noNaN: true }),
        (c, n, k) => {
          const { s, p } = conductorPolarised(c, n, k);
          expect(p >= 0 && p <= s + 1e-12 && s <= 1).toBe(true);
          expect(Math.abs(conductorReflectance(c, n, k) - (s + p) / 2)).toBeLessThan(1e-15);
        },
      ),
      { seed: SEED },
    );
  });
});
