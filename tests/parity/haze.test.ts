import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { placementFrom } from '../../src/core/geometry/placement.ts';
import { type EquiAngular, equiAngularPdf, sampleEquiAngular } from '../../src/core/haze/equi-angular.ts';
import {
  type HazeRegion,
  hazeAlong,
  hazedUpTo_m,
  isHazed,
  newHazeStretches,
  placeInHaze_m,
} from '../../src/core/haze/haze-region.ts';
import { henyeyGreenstein, sampleHenyeyGreenstein } from '../../src/core/haze/henyey-greenstein.ts';
import { hazeTransmittance } from '../../src/core/haze/transmittance.ts';
import { newTexels, type Texels } from '../../src/preview/pack/texels.ts';
import type { Chunk } from '../../src/preview/shaders/chunk.ts';
import { equiAngular } from '../../src/preview/shaders/equi-angular.ts';
import { hazeRegion } from '../../src/preview/shaders/haze-region.ts';
import { henyeyGreenstein as hgChunk } from '../../src/preview/shaders/henyey-greenstein.ts';
import { hazeTransmittance as transmittanceChunk } from '../../src/preview/shaders/transmittance.ts';
import { randomStream } from '../core/geometry/support/random.ts';
import { casesFrom, expectAgreement, floatCases } from './support/agreement.ts';
import { unitVector } from './support/directions.ts';
import { type Glsl, openGlsl } from './support/glsl.ts';

let glsl: Glsl;
beforeAll(async () => {
  glsl = await openGlsl();
});
afterAll(() => glsl?.close());

const ANISOTROPIES = [-0.99, -0.5, -1.1e-3, -1e-3, -9e-4, 0, 5e-4, 1e-3, 0.3, 0.8, 0.99];

describe('the phase function', () => {
  it('is that of the core, in the peak of a narrow lobe too', async () => {
    const edges = ANISOTROPIES.flatMap((g) => [-1, 0, 1, 0.9999].map((mu) => [g, mu]));
    const cases = casesFrom(
      61,
      3000,
      (draw) => [1.98 * draw() - 0.99, (1 - 10 ** (-7 * draw())) * (draw() < 0.3 ? -1 : 1)],
      edges,
    );
    const { given, givenCount, rows } = floatCases(cases);
    const { values } = await glsl.evaluate({
      chunks: [hgChunk],
      body: 'give(0, henyeyGreenstein(given(0), given(1)));',
      given,
      givenCount,
      resultCount: 1,
    });
    const expected = rows.map(([g, mu]) => henyeyGreenstein(g!, mu!));
    // 1 ∓ cos θ is exact and the two summands positive: a few roundings, once more by half for the power 1.5.
    expectAgreement(['henyeyGreenstein'], rows, values, expected, { relative: 2e-6 });
  });

  it('is drawn from alike', async () => {
    const edges = ANISOTROPIES.flatMap((g) => [0, 0.5, 1 - 2 ** -24].map((u) => [g, u]));
    const cases = casesFrom(62, 3000, (draw) => [1.98 * draw() - 0.99, draw()], edges);
    const { given, givenCount, rows } = floatCases(cases);
    const { values } = await glsl.evaluate({
      chunks: [hgChunk],
      body: 'give(0, sampleHenyeyGreenstein(given(0), given(1)));',
      given,
      givenCount,
      resultCount: 1,
    });
    const expected = rows.map(([g, u]) => sampleHenyeyGreenstein(g!, u!));
    // The general form divides a difference of numbers up to 4 by 2g.
    expectAgreement(['sampleHenyeyGreenstein'], rows, values, expected, (_, i) => {
      return 5e-7 / Math.max(1e-3, Math.abs(rows[i]![0]!));
    });
  });
});

describe('equi-angular distances', () => {
  it('are drawn where the core draws them, with the density at that place', async () => {
    const cases = casesFrom(
      63,
      6000,
      (draw) => {
        const from = draw() < 0.3 ? 0 : 30 * draw();
        const to = from + 10 ** (3 * draw() - 1.5);
        return [60 * draw() - 20, 10 ** (6 * draw() - 4.5), from, to, draw()];
      },
      [
        [10, 0, 0, 30, 0.25],
        [10, 0, 0, 30, 0.75],
        [10, 1e-4, 0, 10, 0.5],
        [-5, 0, 0, 30, 0.5],
        [50, 0, 0, 30, 0.999],
        [15, 3, 15, 15.001, 0.5],
        [15, 3, 0, 30, 0],
        [15, 3, 0, 30, 1 - 2 ** -24],
      ],
    );
    const { given, givenCount, rows } = floatCases(cases);
    const { values } = await glsl.evaluate({
      chunks: [equiAngular],
      body: `
        vec3 from = vec3(given(2));
        vec3 to = vec3(given(3));
        EquiAngular seen = equiAngularOf(given(0), given(1), vec3(0.0, 1.0, 0.0), from, to);
        float t = equiAngularPlace(seen, 0.5, given(4));
        give(0, t); give(1, equiAngularDensity(seen, t));`,
      given,
      givenCount,
      resultCount: 2,
    });
    const drawn: EquiAngular = { t: 0, pdf: 0 };
    const distances: number[] = [];
    const places: number[] = [];
    for (const [foot, offset, from, to, u] of rows) {
      sampleEquiAngular(foot!, offset!, from!, to!, u!, drawn);
      distances.push(drawn.t);
      // How far t moves for a part of 3e-6 of the angle, to which the shader knows it, and a rounding of t itself.
      places.push(3e-6 / drawn.pdf + 4e-7 * Math.max(Math.abs(from!), Math.abs(to!), Math.abs(foot!)));
    }
    expectAgreement(
      ['sampleEquiAngular t'],
      rows,
      rows.map((_, i) => values[2 * i]!),
      distances,
      (_, i) => places[i]!,
    );
    const densities = rows.map(([foot, offset, from, to], i) =>
      equiAngularPdf(foot!, offset!, from!, to!, values[2 * i]!),
    );
    // The angle by the driver's atan, promised to 2.5e-4 at worst, here far better.
    expectAgreement(
      ['equiAngularPdf'],
      rows,
      rows.map((_, i) => values[2 * i + 1]!),
      densities,
      { relative: 2e-5 },
    );
  });

  it('come from one of three stretches, the density being that of all together', async () => {
    const cases = casesFrom(64, 4000, (draw) => {
      const [from, middle, to] = [4 * draw(), 5 + 5 * draw(), 11 + 20 * draw()];
      const chances = [0.6 * draw(), 0.3 * draw()];
      return [30 * draw() - 5, 10 ** (4 * draw() - 2), from, middle, to, ...chances, draw(), draw()];
    });
    const { given, givenCount, rows } = floatCases(cases);
    const { values } = await glsl.evaluate({
      chunks: [equiAngular],
      body: `
        vec3 from = vec3(given(3), given(2), given(2));
        vec3 to = vec3(given(4), given(3), given(4));
        vec3 chances = vec3(given(5), given(6), 1.0 - given(5) - given(6));
        EquiAngular seen = equiAngularOf(given(0), given(1), chances, from, to);
        float t = equiAngularPlace(seen, given(7), given(8));
        give(0, t); give(1, equiAngularDensity(seen, t));`,
      given,
      givenCount,
      resultCount: 2,
    });
    const expected = rows.map(([foot, offset, from, middle, to, first, second, which], i) => {
      const t = values[2 * i]!;
      const [low, high] =
        which! < first! ? [middle!, to!] : which! < first! + second! ? [from!, middle!] : [from!, to!];
      expect(t, `case ${i}`).toBeGreaterThanOrEqual(low);
      expect(t, `case ${i}`).toBeLessThanOrEqual(high);
      const pdf = (a: number, b: number) => equiAngularPdf(foot!, offset!, a, b, t);
      return (
        first! * pdf(middle!, to!) + second! * pdf(from!, middle!) + (1 - first! - second!) * pdf(from!, to!)
      );
    });
    expectAgreement(
      ['equiAngularDensity of three'],
      rows,
      rows.map((_, i) => values[2 * i + 1]!),
      expected,
      { relative: 2e-5 },
    );
  });

  it('have no density outside their stretch', async () => {
    const { values } = await glsl.evaluate({
      chunks: [equiAngular],
      body: `
        EquiAngular seen = equiAngularOf(5.0, 1.0, vec3(1.0, 0.0, 0.0), vec3(2.0), vec3(8.0));
        give(0, equiAngularDensity(seen, given(0)));`,
      given: Float32Array.of(1.99, 8.01),
      givenCount: 1,
      resultCount: 1,
    });
    expect([...values]).toEqual([0, 0]);
  });
});

const MOST_REGIONS = 16;

/** The regions of the hazes of a test, MOST_REGIONS to each, five texels a region. */
function regionTexels(hazes: readonly (readonly HazeRegion[])[]): Texels {
  const texels = newTexels(hazes.length * MOST_REGIONS * 5);
  for (const [i, regions] of hazes.entries()) {
    for (const [k, { placement, halfSize_m }] of regions.entries()) {
      const { origin_m, x, y, z } = placement;
      for (const [j, triple] of [origin_m, x, y, z, halfSize_m].entries())
        texels.data.set(triple, 4 * (5 * (MOST_REGIONS * i + k) + j));
    }
  }
  return texels;
}

/** The same in single precision, as the shader has them. */
function rounded(regions: readonly HazeRegion[]): HazeRegion[] {
  const triple = (v: readonly number[]): [number, number, number] => [
    Math.fround(v[0]!),
    Math.fround(v[1]!),
    Math.fround(v[2]!),
  ];
  return regions.map(({ placement: { origin_m, x, y, z }, halfSize_m }) => ({
    placement: { origin_m: triple(origin_m), x: triple(x), y: triple(y), z: triple(z) },
    halfSize_m: triple(halfSize_m),
  }));
}

/** Region i of the haze that the case names first; everywhere where it says so. */
const regionReader: Chunk = {
  name: 'regions of the test',
  needs: [transmittanceChunk],
  code: `
uniform sampler2D regionTexels;
int hazeChosen = 0;
Haze hazeOfCase;
Haze theHaze() { return hazeOfCase; }
vec3 regionTexel(int i) { return texelFetch(regionTexels, ivec2(i & 2047, i >> 11), 0).xyz; }
HazeRegion hazeRegionAt(int i) {
  int at = 5 * (${MOST_REGIONS} * hazeChosen + i);
  return HazeRegion(regionTexel(at), regionTexel(at + 1), regionTexel(at + 2), regionTexel(at + 3), regionTexel(at + 4));
}`,
};

function randomRegions(seed: number, count: number): HazeRegion[] {
  const draw = randomStream(seed);
  const between = (low: number, high: number) => low + (high - low) * draw();
  return rounded(
    Array.from({ length: count }, () => ({
      placement: placementFrom(
        [between(-12, 12), between(-2, 4), between(-12, 12)],
        draw() < 0.5 ? [0, 0, 0] : [between(0, 360), between(-60, 60), between(-90, 90)],
      ),
      halfSize_m: [between(0.2, 4), between(0.2, 4), between(0.2, 4)],
    })),
  );
}

/** Slices along x with gaps between, in an order of no sense: many stretches that never touch. */
function slices(count: number): HazeRegion[] {
  return rounded(
    Array.from({ length: count }, (_, i) => ({
      placement: placementFrom([2 * ((5 * i) % count) - count, 0, 0], [0, 0, 0]),
      halfSize_m: [0.7, 20, 20],
    })),
  );
}

const HAZES: HazeRegion[][] = [
  [],
  randomRegions(71, 1),
  randomRegions(72, 2),
  randomRegions(73, 4),
  randomRegions(74, 8),
  randomRegions(75, 16),
  slices(7),
  // Eight slices, and one that bridges them all in the middle of the list.
  [...slices(8).slice(0, 5), ...randomRegions(76, 1), ...slices(8).slice(5)],
];

describe('haze in regions', () => {
  const draw1 = (draw: () => number) => {
    const haze = Math.floor(draw() * HAZES.length);
    const along =
      draw() < 0.15
        ? [
            [1, 0, 0],
            [-1, 0, 0],
            [0, 0, 1],
          ][Math.floor(3 * draw())]!
        : unitVector(draw);
    return [
      haze,
      30 * draw() - 15,
      6 * draw() - 2,
      30 * draw() - 15,
      ...along,
      10 ** (3 * draw() - 0.5),
      draw(),
    ];
  };
  const { given, givenCount, rows } = floatCases(casesFrom(77, 6000, draw1));
  const stretchesOf = ([haze, ox, oy, oz, dx, dy, dz, D]: readonly number[]) => {
    const found = newHazeStretches();
    hazeAlong(HAZES[haze!]!, ox!, oy!, oz!, dx!, dy!, dz!, D!, found);
    return found;
  };

  it('lies on the same parts of every ray', async () => {
    const { values } = await glsl.evaluate({
      chunks: [regionReader, hazeRegion],
      body: `
        hazeChosen = int(given(0));
        int counts[8] = int[8](${HAZES.map((regions) => regions.length).join(', ')});
        HazeStretches found;
        hazeAlong(counts[hazeChosen], given3(1), given3(4), given(7), found);
        give(0, found.length_m);
        float t = given(8) * given(7);
        give(1, hazedUpTo_m(found, t));
        give(2, placeInHaze_m(found, given(8) * found.length_m));
        give(3, found.length_m > 0.0 ? firstHazed_m(found) : -1.0);
        give(4, found.length_m > 0.0 ? lastHazed_m(found) : -1.0);
        give(5, isHazed(found, t) ? 1.0 : 0.0);`,
      given,
      givenCount,
      resultCount: 6,
      textures: { regionTexels: regionTexels(HAZES) },
    });
    const numbers = [0, 1, 2, 3, 4];
    const kept: (readonly number[])[] = [];
    const got: number[] = [];
    const expected: number[] = [];
    let most = 0;
    let undecided = 0;
    for (const [i, row] of rows.entries()) {
      const found = stretchesOf(row);
      most = Math.max(most, found.count);
      const { count, ends, length_m } = found;
      const t = Math.fround(row[8]! * row[7]!);
      const near = Array.from({ length: 2 * count }, (_, k) => Math.abs(ends[k]! - t)).some(
        (gap) => gap < 1e-4,
      );
      // Where a place falls on the very seam of two stretches, either side is right.
      let seam = 0;
      let before = 0;
      for (let k = 0; k < count; k++) {
        before += ends[2 * k + 1]! - ends[2 * k]!;
        if (k < count - 1 && Math.abs(before - row[8]! * length_m) < 1e-4) seam++;
      }
      if (seam > 0 || (length_m > 0 && length_m < 1e-4)) {
        undecided++;
        continue;
      }
      kept.push(row);
      expected.push(
        length_m,
        hazedUpTo_m(found, t),
        length_m > 0 ? placeInHaze_m(found, row[8]! * length_m) : 0,
        length_m > 0 ? ends[0]! : -1,
        length_m > 0 ? ends[2 * count - 1]! : -1,
      );
      got.push(...numbers.map((k) => (k === 2 && length_m === 0 ? 0 : values[6 * i + k]!)));
      if (!near) expect(values[6 * i + 5], `isHazed of case ${i}`).toBe(isHazed(found, t) ? 1 : 0);
    }
    expect(most).toBe(8);
    expect(undecided).toBeLessThan(60);
    // A region's face is met within a few roundings of coordinates up to 30 m, over the cosine of the angle to it: a ray
    // nearly along a face meets it anywhere within that over the cosine, and where it just misses an edge in one number
    // and not in the other, by the length cut there.
    expectAgreement(
      ['hazeAlong length', 'hazedUpTo_m', 'placeInHaze_m', 'firstHazed_m', 'lastHazed_m'],
      kept,
      got,
      expected,
      { absolute: 2e-4, relative: 1e-6 },
    );
  });

  it('lets as much through', async () => {
    const cases = rows.map((row, i) => [...row, [0, 0.008, 0.03, 0.3][i % 4]!, i % 7 === 0 ? 1 : 0]);
    const { given: more, givenCount: count, rows: full } = floatCases(cases);
    const { values } = await glsl.evaluate({
      chunks: [regionReader],
      body: `
        hazeChosen = int(given(0));
        int counts[8] = int[8](${HAZES.map((regions) => regions.length).join(', ')});
        hazeOfCase = Haze(given(9), 0.95, 0.8, given(10) > 0.5, counts[hazeChosen]);
        give(0, hazeTransmittance(given3(1), given3(4), given(7)));`,
      given: more,
      givenCount: count,
      resultCount: 1,
      textures: { regionTexels: regionTexels(HAZES) },
    });
    const expected = full.map(([haze, ox, oy, oz, dx, dy, dz, D, , sigma, everywhere]) =>
      hazeTransmittance(
        {
          extinction_per_m: sigma!,
          albedo: 0.95,
          anisotropy: 0.8,
          regions: everywhere! > 0.5 ? null : HAZES[haze!]!,
        },
        ox!,
        oy!,
        oz!,
        dx!,
        dy!,
        dz!,
        D!,
      ),
    );
    // σ_t times the error of the length.
    expectAgreement(['hazeTransmittance'], full, values, expected, { absolute: 1e-4 });
  });

  it('is too little, never too much, where a ray passes through more stretches than it can keep', async () => {
    const many = slices(12);
    const { values } = await glsl.evaluate({
      chunks: [regionReader, hazeRegion],
      body: `
        HazeStretches found;
        hazeAlong(12, vec3(-20.0, 0.0, 0.0), vec3(1.0, 0.0, 0.0), 40.0, found);
        give(0, found.length_m); give(1, lastHazed_m(found));`,
      given: new Float32Array(1),
      givenCount: 1,
      resultCount: 2,
      textures: { regionTexels: regionTexels([many]) },
    });
    // derived: eight slices of 1.4 m of the twelve.
    expect(values[0]).toBeCloseTo(8 * 1.4, 4);
    expect(values[1]).toBeLessThanOrEqual(40);
  });
});
