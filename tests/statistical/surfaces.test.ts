import { describe, expect, it } from 'vitest';
import { mixed32 } from '../../src/core/math/kronecker.ts';
import type { Vec3 } from '../../src/core/math/vec3.ts';
import { glossyShare, lobePdf } from '../../src/core/surfaces/evaluate.ts';
import { metalIndex } from '../../src/core/surfaces/metal-index.ts';
import { newSurfaceSample, sampleSurface } from '../../src/core/surfaces/sample.ts';
import { type SurfaceOptics, surfaceOptics } from '../../src/core/surfaces/surface-optics.ts';
import { chiSquareUpperTail, pearson } from '../core/surfaces/support/chi-square.ts';
import {
  ALL_HALF_VECTORS,
  integratedAlbedo,
  overReflections,
  tilted,
} from '../core/surfaces/support/hemisphere.ts';
import { shippedMetal } from '../core/surfaces/support/metals.ts';

const SEED = 20_270_305;

/** A right sampler fails a single one of the tests below once in ten thousand seeds; the seed is fixed. */
const P_LIMIT = 1e-4;

function randomFrom(seed: number): () => number {
  let n = mixed32(seed);
  return () => mixed32(n++) / 2 ** 32;
}

const coat = (roughness: number, coatIor: number, rho: Vec3 = [0.6, 0.3, 0.1]) =>
  surfaceOptics({ reflectance: rho, metal: null, roughness, coatIor });
const steel = (roughness: number) =>
  surfaceOptics({
    reflectance: [0, 0, 0],
    metal: metalIndex(shippedMetal('stainless-steel')),
    roughness,
    coatIor: null,
  });
const matt = surfaceOptics({ reflectance: [0.6, 0.3, 0.1], metal: null, roughness: 1, coatIor: null });

const SURFACES: readonly (readonly [string, SurfaceOptics])[] = [
  ['mirror coat', coat(0, 1.5)],
  ['gloss paint', coat(0.04, 1.5)],
  ['wet asphalt', coat(0.25, 1.33)],
  ['satin paint', coat(0.6, 1.5)],
  ['rough coat', coat(1, 2)],
  ['polished steel', steel(0.1)],
  ['brushed steel', steel(0.3)],
  ['rough steel', steel(1)],
  ['matt', matt],
];

describe('the χ² routine', () => {
  it.each([
    [3.841, 1, 0.05],
    [18.307, 10, 0.05],
    [23.209, 10, 0.01],
    [135.807, 100, 0.01],
    [77.929, 100, 0.95],
  ])('knows that %f is exceeded with %i degrees of freedom at the chance %f', (x, nu, p) => {
    // published: percentage points of χ² (Abramowitz & Stegun, table 26.8; figures from memory)
    expect(Math.abs(chiSquareUpperTail(x, nu) / p - 1)).toBeLessThan(1e-3);
  });
});

const ROWS = 8;
const COLUMNS = 8;

/** Expected and found share of draws in cells of half vectors, the last one for what ends below the surface. */
function cellsOf(optics: SurfaceOptics, o: Vec3, fromGlossy: boolean, draws: number, random: () => number) {
  const alpha = fromGlossy ? optics.alpha : 1;
  // The glossy lobe is cut off at the horizon, across cells; the base fades out there.
  const points = fromGlossy ? 96 : 48;
  const expected = Array.from({ length: ROWS * COLUMNS }, (_, i) => {
    const [row, column] = [Math.floor(i / COLUMNS), i % COLUMNS];
    const cell = {
      u: [row / ROWS, (row + 1) / ROWS],
      phi: [(2 * Math.PI * column) / COLUMNS, (2 * Math.PI * (column + 1)) / COLUMNS],
    } as const;
    return (
      draws *
      overReflections(alpha, o, cell, points, (_x, _y, _z, ix, iy, iz) =>
        lobePdf(optics, ix, iy, iz, ...o, fromGlossy),
      )
    );
  });
  // What of this lobe is neither in the cells nor was given to the other lobe is expected below the surface.
  const share = fromGlossy ? glossyShare(optics, o[2]) : 1 - glossyShare(optics, o[2]);
  expected.push(Math.max(0, draws * share - expected.reduce((sum, e) => sum + e)));
  const observed = new Array<number>(expected.length).fill(0);
  const sample = newSurfaceSample();
  for (let n = 0; n < draws; n++) {
    const any = sampleSurface(optics, ...o, random(), random(), random(), true, sample);
    if (sample.glossy !== fromGlossy) continue;
    if (!any) {
      observed[ROWS * COLUMNS]!++;
      continue;
    }
    const [hx, hy, hz] = [sample.x + o[0], sample.y + o[1], sample.z + o[2]];
    const tan2 = (hx * hx + hy * hy) / (hz * hz);
    const u = tan2 / (alpha * alpha + tan2);
    const phi = Math.atan2(hy, hx);
    const row = Math.min(ROWS - 1, Math.floor(u * ROWS));
    const column = Math.min(
      COLUMNS - 1,
      Math.floor(((phi < 0 ? phi + 2 * Math.PI : phi) / (2 * Math.PI)) * COLUMNS),
    );
    observed[row * COLUMNS + column]!++;
  }
  return { expected, observed, share };
}

describe(`directions drawn from surfaces (seed ${SEED})`, () => {
  it.each(SURFACES)('%s: fall as the stated density says', (name, optics) => {
    const DRAWS = 100_000;
    for (const theta_deg of [0, 40, 75, 88]) {
      const o = tilted(theta_deg);
      for (const fromGlossy of [true, false]) {
        const random = randomFrom(SEED + theta_deg + (fromGlossy ? 1000 : 0));
        const { expected, observed, share } = cellsOf(optics, o, fromGlossy, DRAWS, random);
        const drawn = observed.reduce((sum, count) => sum + count);
        // Which lobe: a binomial count, within four standard deviations.
        expect(Math.abs(drawn - DRAWS * share)).toBeLessThanOrEqual(
          4 * Math.sqrt(DRAWS * share * (1 - share)) + 1e-6,
        );
        if (drawn < 1000) continue;
        const { chiSquare, degreesOfFreedom, p } = pearson(observed, expected);
        expect(
          p,
          `${name} ${theta_deg}° ${fromGlossy}: χ² ${chiSquare} of ${degreesOfFreedom}`,
        ).toBeGreaterThan(P_LIMIT);
      }
    }
  });

  it.each(SURFACES)(
    '%s: the density integrates to 1, what ends below the surface included',
    (_name, optics) => {
      // derived: a density. The share below the surface is counted, with its own standard error.
      const DRAWS = 20_000;
      for (const theta_deg of [0, 60, 85]) {
        const o = tilted(theta_deg);
        const random = randomFrom(SEED + theta_deg);
        const sample = newSurfaceSample();
        let below = 0;
        for (let n = 0; n < DRAWS; n++)
          if (!sampleSurface(optics, ...o, random(), random(), random(), true, sample)) below++;
        below /= DRAWS;
        let above = 0;
        for (const glossy of [true, false]) {
          // The base spreads over the hemisphere, the glossy lobe over α: each is integrated at its own scale.
          const scale = glossy ? optics.alpha : 1;
          above += overReflections(scale, o, ALL_HALF_VECTORS, 200, (_x, _y, _z, ix, iy, iz) =>
            lobePdf(optics, ix, iy, iz, ...o, glossy),
          );
        }
        const error = 4 * Math.sqrt((below * (1 - below)) / DRAWS);
        expect(Math.abs(above + below - 1), `${theta_deg}°`).toBeLessThan(2e-3 + error);
      }
    },
  );

  it.each(SURFACES)('%s: their weights have the albedo as mean', (_name, optics) => {
    const DRAWS = 40_000;
    const sample = newSurfaceSample();
    for (const theta_deg of [0, 50, 75, 86]) {
      const o = tilted(theta_deg);
      const random = randomFrom(SEED + 7 * theta_deg);
      const sums = [0, 0, 0];
      const squares = [0, 0, 0];
      for (let n = 0; n < DRAWS; n++) {
        sampleSurface(optics, ...o, random(), random(), random(), true, sample);
        [sample.r, sample.g, sample.b].forEach((weight, c) => {
          sums[c]! += weight / DRAWS;
          squares[c]! += (weight * weight) / DRAWS;
        });
      }
      for (const c of [0, 1, 2]) {
        // derived: the albedo integrated from f itself, 1e-3 for that quadrature; four standard errors of the mean
        const wanted = integratedAlbedo(optics, o, 'all', c);
        const error = 4 * Math.sqrt(Math.max(0, squares[c]! - sums[c]! ** 2) / DRAWS);
        expect(Math.abs(sums[c]! - wanted), `${theta_deg}°, channel ${c}`).toBeLessThan(1e-3 + error);
      }
    }
  });

  it('carry weights that are bounded, so that no draw outshines the rest', () => {
    // derived: F·G₂/G₁ over the chance of the lobe; a firefly would be hundreds
    const random = randomFrom(SEED);
    const sample = newSurfaceSample();
    for (const [name, optics] of SURFACES) {
      let most = 0;
      for (let n = 0; n < 50_000; n++) {
        const z = Math.max(1e-4, random());
        sampleSurface(optics, Math.sqrt(1 - z * z), 0, z, random(), random(), random(), true, sample);
        most = Math.max(most, sample.r, sample.g, sample.b);
      }
      expect(most, name).toBeLessThan(4);
    }
  });
});
