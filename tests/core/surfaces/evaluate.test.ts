import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { Vec3 } from '../../../src/core/math/vec3.ts';
import { baseShare, evaluateSurface, lobePdf } from '../../../src/core/surfaces/evaluate.ts';
import { metalIndex } from '../../../src/core/surfaces/metal-index.ts';
import { surfaceAlbedo } from '../../../src/core/surfaces/surface-albedo.ts';
import { type SurfaceOptics, surfaceOptics } from '../../../src/core/surfaces/surface-optics.ts';
import { integratedAlbedo, tilted } from './support/hemisphere.ts';
import { shippedMetal } from './support/metals.ts';

const SEED = 5702;

/** The tables' stated error, and as much again for the quadrature of the test. */
const NEVER_ABOVE = 1 + 3e-3;

const WHITE: Vec3 = [1, 1, 1];
const aluminium = metalIndex(shippedMetal('aluminium'));

function coated(reflectance: Vec3, roughness: number, coatIor: number): SurfaceOptics {
  return surfaceOptics({ reflectance, metal: null, roughness, coatIor });
}

function bare(roughness: number): SurfaceOptics {
  return surfaceOptics({ reflectance: [0, 0, 0], metal: aluminium, roughness, coatIor: null });
}

function matt(reflectance: Vec3): SurfaceOptics {
  return surfaceOptics({ reflectance, metal: null, roughness: 0.5, coatIor: null });
}

function f(optics: SurfaceOptics, i: Vec3, o: Vec3, which: 'all' | 'diffuse' | 'glossy' = 'all'): number[] {
  const out = new Float64Array(3);
  evaluateSurface(optics, ...i, ...o, which, out);
  return [...out];
}

/** A unit direction above the surface, grazing ones as likely as others. */
const direction = fc
  .tuple(fc.double({ min: 1e-9, max: 1, noNaN: true }), fc.double({ min: 0, max: 6.2831, noNaN: true }))
  .map(([z, phi]): Vec3 => [Math.sqrt(1 - z * z) * Math.cos(phi), Math.sqrt(1 - z * z) * Math.sin(phi), z]);

describe('white furnace', () => {
  it.each([0.04, 0.1, 0.3, 0.6, 1])(
    'a coated white base of roughness %f gives back all light',
    (roughness) => {
      // derived: E + (1 − E) = 1, integrated from f itself over half vectors and over the base
      for (const coatIor of [1.33, 1.5, 2]) {
        const optics = coated(WHITE, roughness, coatIor);
        for (const theta_deg of [0, 30, 50, 65, 78, 85, 88, 89.5]) {
          const albedo = integratedAlbedo(optics, tilted(theta_deg), 'all');
          expect(Math.abs(albedo - 1), `n ${coatIor}, ${theta_deg}°`).toBeLessThan(5e-3);
          expect(albedo, `n ${coatIor}, ${theta_deg}°`).toBeLessThan(NEVER_ABOVE);
        }
      }
    },
  );

  it('no surface gives back more than it gets', () => {
    const angle = fc.double({ min: 0, max: 89.9, noNaN: true });
    const unit = fc.double({ min: 0, max: 1, noNaN: true });
    fc.assert(
      fc.property(
        unit,
        fc.double({ min: 1.001, max: 4, noNaN: true }),
        unit,
        angle,
        (roughness, n, rho, theta_deg) => {
          const optics = coated([rho, rho, rho], roughness, n);
          expect(integratedAlbedo(optics, tilted(theta_deg), 'all')).toBeLessThan(NEVER_ABOVE);
        },
      ),
      { seed: SEED, numRuns: 60 },
    );
    fc.assert(
      fc.property(unit, angle, (roughness, theta_deg) => {
        for (const channel of [0, 2]) {
          expect(integratedAlbedo(bare(roughness), tilted(theta_deg), 'all', channel)).toBeLessThan(1);
        }
      }),
      { seed: SEED, numRuns: 20 },
    );
  });

  it('the albedo that the tables tell is that of f', () => {
    // derived: integrated from f itself
    const out = new Float64Array(3);
    const surfaces = [
      coated([0.7, 0.3, 0.05], 0.2, 1.5),
      coated([0.1, 0.4, 0.9], 0.8, 1.33),
      bare(0.1),
      bare(0.7),
    ];
    for (const optics of [...surfaces, matt([0.7, 0.3, 0.05])]) {
      for (const theta_deg of [0, 45, 70, 85]) {
        surfaceAlbedo(optics, tilted(theta_deg)[2], out);
        for (let c = 0; c < 3; c++) {
          expect(Math.abs(integratedAlbedo(optics, tilted(theta_deg), 'all', c) - out[c]!)).toBeLessThan(
            3e-3,
          );
        }
      }
    }
  });
});

describe('reflection', () => {
  it('is the same both ways', () => {
    // derived: Helmholtz reciprocity
    for (const optics of [
      coated([0.7, 0.3, 0.05], 0.3, 1.5),
      coated(WHITE, 0, 2),
      bare(0.04),
      bare(1),
      matt(WHITE),
    ]) {
      fc.assert(
        fc.property(direction, direction, (i, o) => {
          const [there, back] = [f(optics, i, o), f(optics, o, i)];
          there.forEach((value, c) => {
            expect(Math.abs(value - back[c]!)).toBeLessThanOrEqual(1e-9 * Math.max(value, back[c]!));
          });
        }),
        { seed: SEED },
      );
    }
  });

  it('is the sum of its lobes, none of them negative', () => {
    for (const optics of [coated([0.7, 0.3, 0.05], 0.3, 1.5), bare(0.2), matt([0.4, 0.5, 0.6])]) {
      fc.assert(
        fc.property(direction, direction, (i, o) => {
          const [all, diffuse, glossy] = [
            f(optics, i, o),
            f(optics, i, o, 'diffuse'),
            f(optics, i, o, 'glossy'),
          ];
          all.forEach((value, c) => {
            expect(diffuse[c]! >= 0 && glossy[c]! >= 0).toBe(true);
            expect(Math.abs(value - diffuse[c]! - glossy[c]!)).toBeLessThanOrEqual(1e-12 * value);
          });
        }),
        { seed: SEED },
      );
    }
  });

  it('of a matt surface is ρ/π', () => {
    // derived: Lambert
    const rho: Vec3 = [0.18, 0.5, 1];
    expect(f(matt(rho), tilted(30), tilted(60))).toEqual(
      rho.map((value) => expect.closeTo(value / Math.PI, 12)),
    );
    expect(baseShare(matt(WHITE), 0.3, 0.7)).toBe(1);
    expect(baseShare(bare(0.3), 0.3, 0.7)).toBe(0);
  });

  it('of a lamp in a smooth coat peaks at F·D·G₂/4cos² in the mirror direction', () => {
    // derived: h = z, D(z) = 1/(πα²), Λ from tan θ; F for n = 1.5 at 60° published as 0.08919 (check value G3)
    const alpha = 0.1 ** 2;
    const [x, , z] = tilted(60);
    const lambda = (Math.sqrt(1 + (alpha * Math.tan(Math.PI / 3)) ** 2) - 1) / 2;
    const wanted = 0.08919 / (Math.PI * alpha * alpha) / (1 + 2 * lambda) / (4 * z * z);
    const [got] = f(coated([0, 0, 0], 0.1, 1.5), [-x, 0, z], [x, 0, z]);
    expect(Math.abs(got! / wanted - 1)).toBeLessThan(1e-4);
  });

  it('is nothing on the surface and below it', () => {
    const level: Vec3 = [1, 0, 0];
    const down: Vec3 = [0.6, 0, -0.8];
    for (const optics of [coated(WHITE, 0.3, 1.5), bare(0.3), matt(WHITE)]) {
      for (const hidden of [level, down]) {
        for (const [i, o] of [
          [hidden, tilted(30)],
          [tilted(30), hidden],
          [hidden, hidden],
        ] as const) {
          expect(f(optics, i, o)).toEqual([0, 0, 0]);
          for (const glossy of [true, false]) expect(lobePdf(optics, ...i, ...o, glossy)).toBe(0);
        }
      }
    }
  });

  it('stays finite at grazing, for a mirror and for the roughest surface', () => {
    const grazing: Vec3 = [1, 0, 1e-12];
    const opposite: Vec3 = [-1, 0, 1e-12];
    for (const roughness of [0, 1]) {
      for (const optics of [
        coated(WHITE, roughness, 1.5),
        coated(WHITE, roughness, 1.0001),
        bare(roughness),
      ]) {
        for (const i of [tilted(0), grazing, opposite]) {
          for (const o of [tilted(0), grazing, opposite]) {
            const densities = [true, false].map((glossy) => lobePdf(optics, ...i, ...o, glossy));
            for (const value of [...f(optics, i, o), ...densities]) {
              expect(Number.isFinite(value) && value >= 0, `${optics.kind} ${i} ${o}`).toBe(true);
            }
          }
        }
      }
    }
  });
});
