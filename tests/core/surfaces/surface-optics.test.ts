import { describe, expect, it } from 'vitest';
import { surfaceAlbedo } from '../../../src/core/surfaces/surface-albedo.ts';
import { type SurfaceDescription, surfaceOptics } from '../../../src/core/surfaces/surface-optics.ts';

const PAINT: SurfaceDescription = { reflectance: [0.5, 0.2, 0.1], metal: null, roughness: 0.3, coatIor: 1.5 };

describe('a surface made ready', () => {
  it('is matt without a coat, or with a coat of the index of air', () => {
    for (const coatIor of [null, 1]) {
      const optics = surfaceOptics({ ...PAINT, coatIor });
      expect(optics.kind).toBe('matt');
      expect(optics.glossy).toBe(false);
    }
  });

  it('is bare when it is a metal, whatever else is said of it', () => {
    const metal = { n: [1.5, 1, 0.6], k: [7.6, 6.5, 5.3] } as const;
    const optics = surfaceOptics({ ...PAINT, metal });
    expect(optics.kind).toBe('metal');
    expect([...optics.baseRgb]).toEqual([0, 0, 0]);
    expect([...optics.metalN]).toEqual([...metal.n]);
  });

  it('has the albedo E + ρ(1 − E)', () => {
    // derived: surface-optics.ts; at normal incidence on a smooth coat of 1.5, E = 0.04
    const out = new Float64Array(3);
    surfaceAlbedo(surfaceOptics({ ...PAINT, roughness: 0.04 }), 1, out);
    [0.52, 0.232, 0.136].forEach((wanted, c) => {
      expect(out[c]).toBeCloseTo(wanted, 4);
    });
    surfaceAlbedo(surfaceOptics({ ...PAINT, coatIor: null }), 0.3, out);
    expect([...out]).toEqual([0.5, 0.2, 0.1]);
  });

  it('survives the way to a worker', () => {
    const optics = surfaceOptics(PAINT);
    expect(structuredClone(optics)).toEqual(optics);
  });

  it.each([
    [{ reflectance: [0.5, 1.2, 0] }, /reflectance is 0.5,1.2,0; give three numbers 0..1/],
    [{ roughness: -0.1 }, /roughness is -0.1; give a number 0..1/],
    [{ roughness: Number.NaN }, /roughness is NaN/],
    [{ coatIor: 0.9 }, /index of the coat is 0.9; give a number 1..1000/],
    [{ coatIor: Number.POSITIVE_INFINITY }, /index of the coat is Infinity/],
    [
      { metal: { n: [0, 1, 1], k: [1, 1, 1] } },
      /complex index of the metal is n 0,1,1, k 1,1,1; give n above 0/,
    ],
  ] as const)('is refused with %j', (wrong, message) => {
    expect(() => surfaceOptics({ ...PAINT, ...wrong } as SurfaceDescription)).toThrow(message);
  });
});
