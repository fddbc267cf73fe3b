import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { albedoAt } from '../../src/core/surfaces/directional-albedo.ts';
import { baseShare, evaluateSurface, glossyShare, lobePdf } from '../../src/core/surfaces/evaluate.ts';
import { conductorReflectance, dielectricReflectance } from '../../src/core/surfaces/fresnel.ts';
import {
  alphaOfRoughness,
  normalDensity,
  reflectionDensity,
  smithRoot,
  unshadowed,
  visibility,
  visibleNormal,
} from '../../src/core/surfaces/ggx.ts';
import {
  lobeDensity,
  lobeTransmission,
  type PaneLobe,
  paneLobe,
  sampleLobe,
  scatteredWeight,
} from '../../src/core/surfaces/pane-lobe.ts';
import { newSurfaceSample, sampleSurface } from '../../src/core/surfaces/sample.ts';
import { type SurfaceOptics, surfaceOptics } from '../../src/core/surfaces/surface-optics.ts';
import { directionalAlbedo } from '../../src/preview/shaders/directional-albedo.ts';
import { evaluate } from '../../src/preview/shaders/evaluate.ts';
import { fresnel } from '../../src/preview/shaders/fresnel.ts';
import { ggx } from '../../src/preview/shaders/ggx.ts';
import { paneLobe as paneLobeChunk } from '../../src/preview/shaders/pane-lobe.ts';
import { sample } from '../../src/preview/shaders/sample.ts';
import { casesFrom, expectAgreement, floatCases, triples } from './support/agreement.ts';
import { upward } from './support/directions.ts';
import { type Glsl, openGlsl } from './support/glsl.ts';
import { numberReader, numberTexels } from './support/number-tables.ts';

let glsl: Glsl;
beforeAll(async () => {
  glsl = await openGlsl();
});
afterAll(() => glsl?.close());

const GRAZING = [1e-6, 1e-4, 0.01, 0.5, 0.999999, 1];

describe('Fresnel', () => {
  it('reflects as in the core: dielectrics, from inside too, and metals', async () => {
    const edges = GRAZING.flatMap((c) =>
      [1 / 1.5, 1.02, 1.33, 1.5, 4]
        .map((n) => [c, n, 0.05, 4])
        .concat([
          [c, 1.5, 1, 0],
          [c, 1.5, 0.5, 0],
          [c, 1.5, 3, 50],
        ]),
    );
    const cases = casesFrom(
      101,
      4000,
      (draw) => [
        draw() < 0.5 ? draw() : 10 ** (-6 * draw()),
        0.3 + 3.7 * draw(),
        10 ** (3 * draw() - 2),
        10 ** (3.5 * draw() - 2),
      ],
      edges,
    );
    const { given, givenCount, rows } = floatCases(cases);
    const { values } = await glsl.evaluate({
      chunks: [fresnel],
      body: `
        give(0, dielectricReflectance(given(0), given(1)));
        give(1, conductorReflectance(given(0), given(2), given(3)));`,
      given,
      givenCount,
      resultCount: 2,
    });
    const decided = (k: number) => rows.filter(([c, n]) => k === 1 || Math.abs(n! * n! - 1 + c! * c!) > 1e-3);
    for (const [k, what] of ['dielectricReflectance', 'conductorReflectance'].entries()) {
      const kept = decided(k);
      const places = kept.map((row) => rows.indexOf(row));
      const expected = kept.map(([c, n, metalN, metalK]) =>
        k === 0 ? dielectricReflectance(c!, n!) : conductorReflectance(c!, metalN!, metalK!),
      );
      // Differences of numbers near 1, squared or in quotients: ten roundings or so. Left out: less than 1e-3 from the
      // angle of total reflection, where g is the root of nothing.
      expectAgreement(
        [what],
        kept,
        places.map((i) => values[2 * i + k]!),
        expected,
        { absolute: 2e-6 },
      );
    }
  });
});

const ROUGHNESSES = [0, 0.0316, 0.05, 0.2, 0.5, 1];

/** A direction, and one near its mirror image as far as the lobe reaches or anywhere. */
function pairOfDirections(draw: () => number, alpha: number): number[] {
  const o = upward(draw);
  if (draw() < 0.4) return [...upward(draw), ...o];
  const spread = alpha * 10 ** (1.5 * draw() - 1);
  const i = [
    -o[0] + spread * (draw() - 0.5),
    -o[1] + spread * (draw() - 0.5),
    o[2] + spread * (draw() - 0.5),
  ];
  const l = Math.hypot(...i);
  return i[2]! > 0 ? [...i.map((x) => x / l), ...o] : [...upward(draw), ...o];
}

describe('GGX', () => {
  it('has the core’s densities and shadows', async () => {
    const cases = casesFrom(102, 4000, (draw) => {
      const alpha = alphaOfRoughness(draw() < 0.3 ? ROUGHNESSES[Math.floor(6 * draw())]! : draw());
      const tilt = Math.min(1.57, alpha * 10 ** (3 * draw() - 2));
      const turn = 7 * draw();
      return [
        alpha,
        Math.sin(tilt) * Math.cos(turn),
        Math.sin(tilt) * Math.sin(turn),
        Math.cos(tilt),
        upward(draw)[2],
        upward(draw)[2],
      ];
    });
    const { given, givenCount, rows } = floatCases(cases);
    const { values } = await glsl.evaluate({
      chunks: [ggx],
      body: `
        float alpha = given(0);
        vec3 h = given3(1);
        give(0, normalDensity(alpha, h)); give(1, smithRoot(alpha, given(4)));
        give(2, visibility(alpha, given(4), given(5))); give(3, unshadowed(alpha, given(4), given(5)));
        give(4, reflectionDensity(alpha, h, given(5)));`,
      given,
      givenCount,
      resultCount: 5,
    });
    const expected = rows.flatMap(([alpha, x, y, z, cosI, cosO]) => [
      normalDensity(alpha!, x!, y!, z!),
      smithRoot(alpha!, cosI!),
      visibility(alpha!, cosI!, cosO!),
      unshadowed(alpha!, cosI!, cosO!),
      reflectionDensity(alpha!, x!, y!, z!, cosO!),
    ]);
    // Sums of positive terms only: a handful of roundings, twice for the square.
    expectAgreement(
      ['normalDensity', 'smithRoot', 'visibility', 'unshadowed', 'reflectionDensity'],
      rows,
      values,
      expected,
      { relative: 3e-6 },
    );
  });

  it('draws the same visible normals', async () => {
    const draw1 = (draw: () => number) => {
      const turn = 2 * Math.PI * draw();
      const alpha = alphaOfRoughness(draw() < 0.3 ? 0 : draw());
      return [alpha, ...upward(draw), draw(), Math.cos(turn), Math.sin(turn)];
    };
    const edges = ROUGHNESSES.flatMap((roughness) =>
      [0, 0.5, 1 - 2 ** -24].flatMap((u) => [
        [alphaOfRoughness(roughness), 0, 0, 1, u, 1, 0],
        [alphaOfRoughness(roughness), 1, 0, 1e-6, u, 0, 1],
      ]),
    );
    const { given, givenCount, rows } = floatCases(casesFrom(103, 4000, draw1, edges));
    const { values } = await glsl.evaluate({
      chunks: [ggx],
      body: 'give(0, visibleNormal(given(0), given3(1), given(4), given(5), given(6)));',
      given,
      givenCount,
      resultCount: 3,
    });
    const normal = new Float64Array(3);
    const expected = rows.flatMap(([alpha, x, y, z, u, c, s]) => {
      visibleNormal(alpha!, x!, y!, z!, u!, c!, s!, normal);
      return [...normal];
    });
    // The normal is c + o, stretched: where the two nearly cancel, their roundings of 6e-8 count for as much more as the sum
    // is shorter, a fiftieth at the shortest here.
    expectAgreement(triples('visibleNormal'), rows, values, expected, { absolute: 1e-5 });
  });
});

const SILVER = { n: [0.155, 0.06, 0.05], k: [3.6, 3.0, 2.2] } as const;
const DESCRIPTIONS = [
  { reflectance: [0.8, 0.5, 0.1], metal: null, roughness: 0.5, coatIor: null },
  { reflectance: [0, 0, 0], metal: null, roughness: 0, coatIor: 1.5 },
  { reflectance: [1, 1, 1], metal: null, roughness: 0, coatIor: 1.5 },
  { reflectance: [0.03, 0.08, 0.12], metal: null, roughness: 0.2, coatIor: 1.5 },
  { reflectance: [1, 0.2, 0], metal: null, roughness: 1, coatIor: 4 },
  { reflectance: [0.06, 0.06, 0.06], metal: null, roughness: 0.25, coatIor: 1.33 },
  { reflectance: [0.5, 0.5, 0.5], metal: null, roughness: 0.05, coatIor: 1.02 },
  { reflectance: [0, 0, 0], metal: SILVER, roughness: 0, coatIor: null },
  {
    reflectance: [0, 0, 0],
    metal: { n: [2.7, 2.9, 2.5], k: [3.3, 3.1, 2.8] },
    roughness: 0.4,
    coatIor: null,
  },
] as const;

const KINDS = { matt: 'MATT', coated: 'COATED', metal: 'METAL' } as const;

describe('a surface', () => {
  const surfaces = DESCRIPTIONS.map((description) => surfaceOptics(description));
  const coats = surfaces.filter((surface) => surface.kind === 'coated');
  const NODES = coats[0]!.albedo[0]!.E.length;
  const textures = { numberTexels: numberTexels(coats.flatMap((coat) => Array.from(coat.albedo[0]!.E))) };
  const tables = numberReader(
    [evaluate, directionalAlbedo],
    `
float albedoNode(int table, int j) { return numberAt(table + j); }
SurfaceOptics surfaceOf(int i) {
  SurfaceOptics all[${surfaces.length}] = SurfaceOptics[${surfaces.length}](${surfaces.map(glslOf).join(',\n')});
  return all[i];
}`,
  );

  function glslOf(o: SurfaceOptics): string {
    const vec = (v: ArrayLike<number>) => `vec3(${Array.from(v).join(', ')})`;
    const albedo = o.kind === 'coated' ? NODES * coats.indexOf(o) : 0;
    return (
      `SurfaceOptics(${KINDS[o.kind]}, ${o.glossy}, ${vec(o.baseRgb)}, float(${o.baseLuminance}), float(${o.alpha}), ` +
      `float(${o.coatIor}), ${vec(o.metalN)}, ${vec(o.metalK)}, ${albedo}, float(${o.baseScale}))`
    );
  }

  /** Numbers of the surface as the shader has them. */
  const single = surfaces.map((o): SurfaceOptics => {
    const round = (v: Float64Array) => Float64Array.from(v, Math.fround);
    return {
      ...o,
      baseRgb: round(o.baseRgb),
      baseLuminance: Math.fround(o.baseLuminance),
      alpha: Math.fround(o.alpha),
      coatIor: Math.fround(o.coatIor),
      metalN: round(o.metalN),
      metalK: round(o.metalK),
      baseScale: Math.fround(o.baseScale),
    };
  });

  it('has the core’s directional albedo', async () => {
    const cases = casesFrom(
      104,
      3000,
      (draw) => [Math.floor(draw() * coats.length), upward(draw)[2]],
      GRAZING.concat(0).flatMap((c) => coats.map((_, i) => [i, c])),
    );
    const { given, givenCount, rows } = floatCases(cases);
    const { values } = await glsl.evaluate({
      chunks: [tables],
      body: `give(0, albedoAt(int(given(0)) * ${NODES}, given(1)));`,
      given,
      givenCount,
      resultCount: 1,
      textures,
    });
    const expected = rows.map(([i, c]) => albedoAt(coats[i!]!.albedo[0]!, c!));
    // Straight between nodes that both have: whichever cell a rounded cosine falls in, the line is the same there.
    expectAgreement(['albedoAt'], rows, values, expected, { absolute: 1e-6 });
  });

  it('sends on what the core sends on, from base, coat and metal', async () => {
    const cases = casesFrom(
      105,
      6000,
      (draw) => {
        const surface = Math.floor(draw() * surfaces.length);
        return [surface, ...pairOfDirections(draw, surfaces[surface]!.alpha)];
      },
      [
        [3, 0, 0, 1, 0, 0, 1],
        [3, 0, 0, -1, 0, 0, 1],
        [3, 0, 0, 1, 0, 0.8, -0.6],
        [7, 1, 0, 1e-6, -1, 0, 1e-6],
      ],
    );
    const { given, givenCount, rows } = floatCases(cases);
    const { values } = await glsl.evaluate({
      chunks: [tables],
      body: `
        SurfaceOptics optics = surfaceOf(int(given(0)));
        vec3 i = given3(1);
        vec3 o = given3(4);
        give(0, evaluateSurface(optics, i, o, ALL)); give(3, evaluateSurface(optics, i, o, DIFFUSE));
        give(6, evaluateSurface(optics, i, o, GLOSSY));
        give(9, baseShare(optics, i.z, o.z)); give(10, glossyShare(optics, o.z));
        give(11, lobePdf(optics, glossyShare(optics, o.z), i, o, true));
        give(12, lobePdf(optics, glossyShare(optics, o.z), i, o, false));`,
      given,
      givenCount,
      resultCount: 13,
      textures,
    });
    const f = new Float64Array(3);
    const expected = rows.flatMap(([k, ix, iy, iz, ox, oy, oz]) => {
      const of = single[k!]!;
      const parts = (['all', 'diffuse', 'glossy'] as const).flatMap((which) => {
        evaluateSurface(of, ix!, iy!, iz!, ox!, oy!, oz!, which, f);
        return [...f];
      });
      return [
        ...parts,
        baseShare(of, iz!, oz!),
        oz! > 0 ? glossyShare(of, oz!) : 0,
        lobePdf(of, ix!, iy!, iz!, ox!, oy!, oz!, true),
        lobePdf(of, ix!, iy!, iz!, ox!, oy!, oz!, false),
      ];
    });
    const got = Array.from(values);
    // Below the surface nobody asks for the share.
    rows.forEach((row, i) => {
      if (row[6]! <= 0) got[13 * i + 10] = 0;
    });
    // The half vector is rounded by 1e-7, which moves D by 4e-7/α of itself: 4e-4 at the least α of 1e-3; where i and o are
    // nearly opposite and grazing, by as much more as |i + o| is shorter than 2.
    const steepness = rows.map(([k, ix, iy, iz, ox, oy, oz]) => {
      const l = Math.hypot(ix! + ox!, iy! + oy!, iz! + oz!);
      return (6e-7 / surfaces[k!]!.alpha) * (2 / Math.max(1e-3, l));
    });
    const rgb = (name: string) => ['r', 'g', 'b'].map((channel) => `${name}.${channel}`);
    expectAgreement(
      [
        ...rgb('evaluateSurface all'),
        ...rgb('evaluateSurface diffuse'),
        ...rgb('evaluateSurface glossy'),
        'baseShare',
        'glossyShare',
        'lobePdf glossy',
        'lobePdf diffuse',
      ],
      rows,
      got,
      expected,
      (value, i) => 1e-6 + (4e-6 + steepness[i]!) * Math.abs(value),
    );
  });

  it('is drawn from alike', async () => {
    const cases = casesFrom(
      106,
      6000,
      (draw) => {
        const surface = Math.floor(draw() * surfaces.length);
        return [surface, ...upward(draw), draw(), draw(), draw(), draw() < 0.5 ? 1 : 0];
      },
      [
        [3, 0, 0, 1, 0, 0, 0, 1],
        [3, 0, 0, 1, 0, 0.5, 0.9, 0],
        [0, 0, 0, 1, 1 - 2 ** -24, 1 - 2 ** -24, 1 - 2 ** -24, 1],
        [7, 1, 0, 1e-6, 0.5, 0.25, 0.5, 1],
        [3, 0, 0.6, -0.8, 0.5, 0.5, 0.5, 1],
      ],
    );
    const { given, givenCount, rows } = floatCases(cases);
    const { values } = await glsl.evaluate({
      chunks: [tables, sample],
      body: `
        SurfaceSample drawn;
        bool above = sampleSurface(surfaceOf(int(given(0))), given3(1), given(4), given(5), given(6), given(7) > 0.5, drawn);
        give(0, above ? 1.0 : 0.0); give(1, drawn.w); give(4, drawn.weight); give(7, drawn.pdf);
        give(8, drawn.glossy ? 1.0 : 0.0);`,
      given,
      givenCount,
      resultCount: 9,
      textures,
    });
    const drawn = newSurfaceSample();
    const kept: (readonly number[])[] = [];
    const got: number[] = [];
    const expected: number[] = [];
    const steepness: number[] = [];
    let undecided = 0;
    let below = 0;
    for (const [i, row] of rows.entries()) {
      const [k, x, y, z, u, v, w, apart] = row as [
        number,
        number,
        number,
        number,
        number,
        number,
        number,
        number,
      ];
      const of = single[k]!;
      const above = sampleSurface(of, x, y, z, u, v, w, apart > 0.5, drawn);
      const choice = z > 0 ? Math.abs(w - glossyShare(of, z)) : 1;
      // On the very horizon, or with the number on the very share of the coat, single precision decides otherwise.
      if (choice < 1e-5 || (z > 0 && Math.abs(drawn.z) < 1e-5)) {
        undecided++;
        continue;
      }
      expect(values[9 * i], `above, case ${i}: [${row}]`).toBe(above ? 1 : 0);
      if (!above) {
        below++;
        continue;
      }
      expect(values[9 * i + 8]).toBe(drawn.glossy ? 1 : 0);
      const l = Math.hypot(x + drawn.x, y + drawn.y, z + drawn.z);
      const steep = drawn.glossy || apart < 0.5 ? (2e-6 / of.alpha) * (2 / Math.max(1e-3, l)) : 0;
      // A direction near the horizon is known to 1e-6, its cosine by as much less.
      steepness.push(steep + 2e-6 / drawn.z);
      kept.push(row);
      got.push(...values.subarray(9 * i + 1, 9 * i + 8));
      expected.push(drawn.x, drawn.y, drawn.z, drawn.r, drawn.g, drawn.b, drawn.pdf);
    }
    expect(undecided).toBeLessThan(80);
    expect(below).toBeGreaterThan(50);
    const column = (numbers: readonly number[], from: number, to: number) =>
      kept.flatMap((_, i) => numbers.slice(7 * i + from, 7 * i + to));
    expectAgreement(triples('sampleSurface w'), kept, column(got, 0, 3), column(expected, 0, 3), {
      absolute: 2e-6,
    });
    // D and the density by D alike, so the weight is steadier than either; the same is allowed.
    expectAgreement(
      ['sampleSurface weight.r', 'sampleSurface weight.g', 'sampleSurface weight.b', 'sampleSurface pdf'],
      kept,
      column(got, 3, 7),
      column(expected, 3, 7),
      (value, i) => 1e-6 + (1e-5 + steepness[i]!) * Math.abs(value),
    );
  });
});

describe('a scattering pane', () => {
  const lobes = [2, 10, 30, 60, 120, 170, 180].map(paneLobe);
  const round = (lobe: PaneLobe): PaneLobe => ({
    exponent: Math.fround(lobe.exponent),
    normalisation: Math.fround(lobe.normalisation),
    excess: Float64Array.from(lobe.excess, Math.fround),
  });
  const single = lobes.map(round);

  it('scatters as in the core', async () => {
    const cosine = (draw: () => number) => upward(draw)[2];
    const cases = casesFrom(
      107,
      6000,
      (draw) => {
        const lobe = Math.floor(draw() * lobes.length);
        // Down to a hundred-thousandth of the lobe's peak.
        const cosDelta =
          draw() < 0.9 ? Math.max(1e-30, 10 ** ((-5 * draw()) / lobes[lobe]!.exponent)) : 2 * draw() - 1;
        return [lobe, cosine(draw), cosine(draw), cosDelta, draw()];
      },
      lobes.flatMap((_, i) => [
        [i, 1, 1, 1, 0],
        [i, 1e-6, 1, 0, 0.5],
        [i, 1, 1e-6, -1, 1 - 2 ** -24],
      ]),
    );
    const { given, givenCount, rows } = floatCases(cases);
    const { values } = await glsl.evaluate({
      chunks: [
        numberReader([paneLobeChunk], 'float excessNode(int table, int k) { return numberAt(table + k); }'),
        paneLobeChunk,
      ],
      body: `
        PaneLobe lobes[${lobes.length}] = PaneLobe[${lobes.length}](${lobes.map((lobe, i) => `PaneLobe(float(${lobe.exponent}), float(${lobe.normalisation}), ${64 * i})`).join(', ')});
        PaneLobe lobe = lobes[int(given(0))];
        give(0, lobeDensity(lobe, given(3)) * TWO_PI / (lobe.exponent + 1.0));
        give(1, sampleLobe(lobe, given(4)));
        give(2, lobeTransmission(lobe, given(1), given(2), given(3)) * TWO_PI / (lobe.exponent + 1.0) * sqrt(given(1) * given(2)));
        give(3, scatteredWeight(lobe, given(1), given(2)) * sqrt(given(2) / given(1)));`,
      given,
      givenCount,
      resultCount: 4,
      textures: { numberTexels: numberTexels(lobes.flatMap((lobe) => Array.from(lobe.excess))) },
    });
    const onStep = (c: number) => {
      const step = 64 * Math.sqrt(c);
      return Math.abs(step - Math.round(step)) < 1e-4;
    };
    const kept = rows.filter(([, cosIn, cosOut]) => !onStep(cosIn!) && !onStep(cosOut!));
    expect(kept.length).toBeGreaterThan(5800);
    const got = kept.flatMap((row) => [...values.subarray(4 * rows.indexOf(row), 4 * rows.indexOf(row) + 4)]);
    const expected = kept.flatMap(([k, cosIn, cosOut, cosDelta, u]) => {
      const lobe = single[k!]!;
      const unit = (2 * Math.PI) / (lobe.exponent + 1);
      return [
        lobeDensity(lobe, cosDelta!) * unit,
        sampleLobe(lobe, u!),
        lobeTransmission(lobe, cosIn!, cosOut!, cosDelta!) * unit * Math.sqrt(cosIn! * cosOut!),
        scatteredWeight(lobe, cosIn!, cosOut!) * Math.sqrt(cosOut! / cosIn!),
      ];
    });
    // By its peak the lobe is y^m, its logarithm at most 12 within 1e-5 of the peak, known to 3e-7 of that. Left out: cosines
    // on a step of the core's table of excess, where either neighbour is right.
    expectAgreement(
      ['lobeDensity/peak', 'sampleLobe', 'lobeTransmission/peak', 'scatteredWeight·√(cosOut/cosIn)'],
      kept,
      got,
      expected,
      { relative: 5e-6, absolute: 1e-6 },
    );
  });
});
