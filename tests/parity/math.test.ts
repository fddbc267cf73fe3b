import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { kroneckerU, kroneckerV, mixed32 } from '../../src/core/math/kronecker.ts';
import { nextRandom, seededRandom, startPath } from '../../src/core/math/random.ts';
import { luminanceOfRgb } from '../../src/core/picture/linear-rgb.ts';
import { arriveAt, newSurfacePoint, setNormal } from '../../src/core/transport/surface-point.ts';
import { kronecker } from '../../src/preview/shaders/kronecker.ts';
import { linearRgb } from '../../src/preview/shaders/linear-rgb.ts';
import { nearOne } from '../../src/preview/shaders/near-one.ts';
import { random } from '../../src/preview/shaders/random.ts';
import { surfacePoint } from '../../src/preview/shaders/surface-point.ts';
import { randomStream } from '../core/geometry/support/random.ts';
import { casesFrom, expectAgreement, floatCases, triples } from './support/agreement.ts';
import { unitVector } from './support/directions.ts';
import { type Glsl, openGlsl } from './support/glsl.ts';

let glsl: Glsl;
beforeAll(async () => {
  glsl = await openGlsl();
});
afterAll(() => glsl?.close());

/** Seeded 32-bit words, the extremes among them. */
function words(seed: number, count: number): number[] {
  const draw = randomStream(seed);
  const edges = [0, 1, 2, 0x7fffffff, 0x80000000, 0xffffffff];
  return [...edges, ...Array.from({ length: count - edges.length }, () => Math.floor(draw() * 2 ** 32))];
}

/** The upper 24 of the 32 bits of a number of the unit interval. */
const upper24 = (x: number) => Math.floor(x * 2 ** 24);

describe('random numbers in the shader', () => {
  it.for([
    ['one by one', 'give(i, nextRandom(state));'],
    [
      'four at a time',
      'if ((i & 3) == 0) { vec4 four = nextFour(state); for (int k = 0; k < 4; k++) give(i + k, four[k]); }',
    ],
  ] as const)('are the stratified ones of the core, bit for bit: %s', async ([, draw]) => {
    const seeds = words(11, 1000);
    const paths = words(12, 1000);
    const draws = 24;
    // The first ones, and those before the last of which the core stratifies.
    const skips = seeds.map((_, i) => (i % 2 === 0 ? 0 : 168));
    const { values } = await glsl.evaluate({
      chunks: [random],
      body: `
        RandomState state = pathRandom(givenBits(0), givenBits(1));
        int skipped = int(givenBits(2));
        for (int i = 0; i < skipped; i++) nextRandom(state);
        for (int i = 0; i < ${draws}; i++) ${draw}`,
      given: Uint32Array.from(seeds.flatMap((seed, i) => [seed, paths[i]!, skips[i]!])),
      givenCount: 3,
      resultCount: draws,
    });
    const expected = seeds.flatMap((seed, i) => {
      const state = seededRandom(seed);
      startPath(state, paths[i]!);
      for (let k = 0; k < skips[i]!; k++) nextRandom(state);
      return Array.from({ length: draws }, () => upper24(nextRandom(state)));
    });
    expect(Array.from(values, (x) => x * 2 ** 24)).toEqual(expected);
  });

  it('are stratified beyond those of the core, too', async () => {
    const count = 1024;
    const { values } = await glsl.evaluate({
      chunks: [random],
      body: `
        RandomState state = pathRandom(77u, givenBits(0));
        for (int i = 0; i < 1000; i++) nextRandom(state);
        give(0, nextRandom(state));
        give(1, nextRandom(state));`,
      given: Uint32Array.from({ length: count }, (_, i) => i),
      givenCount: 1,
      resultCount: 2,
    });
    const columns = [0, 1].map((k) => Array.from({ length: count }, (_, i) => values[2 * i + k]!));
    // derived: of 1024 paths each has one of 1024 equal parts for itself
    for (const column of columns) expect(new Set(column.map((x) => Math.floor(x * count))).size).toBe(count);
    // derived: independent, so that their correlation has a standard error of 1/√1024 = 0.031
    const [first, second] = columns.map((column) => column.map((x) => x - 0.5));
    const correlation = first!.reduce((sum, x, i) => sum + x * second![i]!, 0) / (count / 12);
    expect(Math.abs(correlation)).toBeLessThan(4 * 0.031);
  });

  it('take the same place in the Kronecker sequence', async () => {
    const indices = words(21, 2000);
    const shifts = words(22, 2000);
    const { values, bits } = await glsl.evaluate({
      chunks: [kronecker],
      body: `
        give(0, kroneckerU(givenBits(0), givenBits(1)));
        give(1, kroneckerV(givenBits(0), givenBits(1)));
        giveBits(2, mixed32(givenBits(0)));`,
      given: Uint32Array.from(indices.flatMap((i, k) => [i, shifts[k]!])),
      givenCount: 2,
      resultCount: 3,
    });
    for (const [k, i] of indices.entries()) {
      expect(values[3 * k]! * 2 ** 24).toBe(upper24(kroneckerU(i, shifts[k]!)));
      expect(values[3 * k + 1]! * 2 ** 24).toBe(upper24(kroneckerV(i, shifts[k]!)));
      expect(bits[3 * k + 2]).toBe(mixed32(i));
    }
  });
});

describe('the axes of a surface point', () => {
  it('are those of the core', async () => {
    const cases = casesFrom(31, 3000, (draw) => [...unitVector(draw), ...unitVector(draw)], [
      [0, -1, 0, 0, 1, 0],
      [0, 0, 1, 0, 0, -1],
      [0, 0, -1, 0, 0, 1],
      [1, 0, 0, 0, 1, 0],
      [0.6, 0.8, 0, 0, 0, 1],
      [0, 1, 0, 1e-4, 1, 1e-5],
    ]);
    const { given, givenCount, rows } = floatCases(cases);
    const { values } = await glsl.evaluate({
      chunks: [surfacePoint],
      body: `
        SurfacePoint point;
        arriveAt(point, vec3(0.0), given3(0), given3(3));
        give(0, point.n); give(3, point.u); give(6, point.v); give(9, point.o);`,
      given,
      givenCount,
      resultCount: 12,
    });
    const p = newSurfacePoint();
    const expected = rows.flatMap(([dx, dy, dz, nx, ny, nz]) => {
      arriveAt(p, 0, 0, 0, dx!, dy!, dz!, nx!, ny!, nz!);
      return [p.nx, p.ny, p.nz, p.ux, p.uy, p.uz, p.vx, p.vy, p.vz, p.ox, p.oy, p.oz];
    });
    // 1/(1 + |n_z|) is never above 1, so nothing grows beyond a few roundings of 6e-8.
    expectAgreement(triples('arriveAt n', 'arriveAt u', 'arriveAt v', 'arriveAt o'), rows, values, expected, {
      absolute: 6e-7,
    });
  });
});

describe('a direction that is turned', () => {
  it('has its angle and its place round it', async () => {
    const cases = casesFrom(32, 3000, (draw) => [...unitVector(draw), 2 * draw() - 1, draw()], [
      [0, 0, 1, 1, 0.3],
      [0, 0, -1, -1, 0.3],
      [0, 1, 0, 0, 0],
      [0, 1, 0, 0, 1 - 2 ** -24],
      [1, 0, 0, 0.99999, 0.5],
    ]);
    const { given, givenCount, rows } = floatCases(cases);
    const { values } = await glsl.evaluate({
      chunks: [surfacePoint],
      body: 'give(0, turned(given3(0), given(3), given(4)));',
      given,
      givenCount,
      resultCount: 3,
    });
    const p = newSurfacePoint();
    // derived: cos of the angle along d, its sine split over the axes of the core by the angle round d.
    const expected = rows.flatMap(([x, y, z, mu, u]) => {
      setNormal(p, x!, y!, z!);
      const s = Math.sqrt(1 - mu! * mu!);
      const [c, k] = [s * Math.cos(2 * Math.PI * u!), s * Math.sin(2 * Math.PI * u!)];
      return [c * p.ux + k * p.vx + mu! * x!, c * p.uy + k * p.vy + mu! * y!, c * p.uz + k * p.vz + mu! * z!];
    });
    // 1 − μ² cancels near μ = ±1, where its root is small: √(6e-8) at the very end, a few roundings elsewhere.
    expectAgreement(triples('turned'), rows, values, expected, { absolute: 3e-6 });
  });
});

describe('numbers near 1', () => {
  it('keep their digits in logarithm and exponential', async () => {
    const cases = casesFrom(
      41,
      3000,
      (draw) => {
        const x = 10 ** (-8 * draw()) * (draw() < 0.5 ? -0.999 : 1);
        return [x, 5000 * draw() ** 3];
      },
      [
        [0, 0],
        [0.3, 1],
        [-0.3, 1],
        [1, 1],
        [-0.30001, 1],
        [0.30001, 1],
      ],
    );
    const { given, givenCount, rows } = floatCases(cases);
    const { values } = await glsl.evaluate({
      chunks: [nearOne],
      body: 'give(0, log1p(given(0))); give(1, expm1(given(0)));',
      given,
      givenCount,
      resultCount: 2,
    });
    // Series to 1e-7, a few roundings; beyond |x| = 0.3 the driver's log, promised to 5e-7 of at least 0.26, and its exp.
    const expected = rows.flatMap(([x]) => [Math.log1p(x!), Math.expm1(x!)]);
    expectAgreement(['log1p', 'expm1'], rows, values, expected, { relative: 3e-6 });

    // 1 + x itself is given: a compiler may shorten 1 + x − 1 to x.
    const powerCases = floatCases(rows.filter(([x]) => x! <= 0).map(([x, m]) => [1 + x!, m!]));
    const powers = await glsl.evaluate({
      chunks: [nearOne],
      body: 'give(0, powerOf(given(0), given(1)));',
      given: powerCases.given,
      givenCount: 2,
      resultCount: 1,
    });
    const exact = powerCases.rows.map(([y, m]) => y! ** m!);
    // An error of 3e-7 in the logarithm, times the logarithm of the power, which is at most 15 where the power is above 3e-7.
    expectAgreement(['powerOf'], powerCases.rows, powers.values, exact, { relative: 6e-6, absolute: 1e-9 });
  });
});

describe('luminance', () => {
  it('is that of the core', async () => {
    const draw3 = (draw: () => number) =>
      [0, 0, 0].map(() => 10 ** (12 * draw() - 4) * (draw() < 0.1 ? -1 : 1));
    const { given, givenCount, rows } = floatCases(
      casesFrom(51, 2000, draw3, [
        [0, 0, 0],
        [1, 1, 1],
      ]),
    );
    const { values } = await glsl.evaluate({
      chunks: [linearRgb],
      body: 'give(0, luminanceOfRgb(given3(0)));',
      given,
      givenCount,
      resultCount: 1,
    });
    const expected = rows.map(([r, g, b]) => luminanceOfRgb([r!, g!, b!]));
    // Three products and two sums: a few roundings of the largest of them.
    expectAgreement(['luminanceOfRgb'], rows, values, expected, (_, i) => {
      const [r, g, b] = rows[i]!;
      return 5e-7 * luminanceOfRgb([Math.abs(r!), Math.abs(g!), Math.abs(b!)]);
    });
  });
});
