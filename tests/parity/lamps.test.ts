import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { type Face, faceArea_m2, faceRadius_m, placeOnFace } from '../../src/core/lamps/face.ts';
import { onFace } from '../../src/core/lamps/face-hit.ts';
import { lampFrame } from '../../src/core/lamps/lamp-frame.ts';
import { type LitCone, litCone, type Stretch, withinCone } from '../../src/core/lamps/lit-cone.ts';
import { beamTableOf, tabulatedBeam } from '../../src/core/photometry/beam-table.ts';
import type { CandelaTable, Distribution } from '../../src/core/photometry/distribution.ts';
import { intensityToward } from '../../src/core/photometry/intensity.ts';
import { beamTable } from '../../src/preview/shaders/beam-table.ts';
import { face as faceChunk } from '../../src/preview/shaders/face.ts';
import { faceHit } from '../../src/preview/shaders/face-hit.ts';
import { intensity } from '../../src/preview/shaders/intensity.ts';
import { withinCone as coneChunk } from '../../src/preview/shaders/lit-cone.ts';
import { synthetic } from '../core/photometry/fixture.ts';
import { casesFrom, expectAgreement, floatCases } from './support/agreement.ts';
import { unitVector } from './support/directions.ts';
import { type Glsl, openGlsl } from './support/glsl.ts';
import { numberReader, numberTexels } from './support/number-tables.ts';

let glsl: Glsl;
beforeAll(async () => {
  glsl = await openGlsl();
});
afterAll(() => glsl?.close());

const SHAPES = ['disc', 'rectangle', 'octagon'] as const;

function faceOf(shape: number, across: number, up: number): Face {
  switch (SHAPES[shape]!) {
    case 'disc':
      return { shape: 'disc', radius_m: across };
    case 'rectangle':
      return { shape: 'rectangle', halfSize_m: [across, up] };
    case 'octagon':
      return { shape: 'octagon', apothem_m: across };
  }
}

describe('a lamp’s face', () => {
  const size = (draw: () => number) => 10 ** (2.5 * draw() - 2);

  it('has its points, its area and its radius where the core has them', async () => {
    const edges = [0, 1, 2].flatMap((shape) =>
      [
        [0, 0],
        [0.5, 0.5],
        [0.5, 0],
        [0, 1 - 2 ** -24],
        [1 - 2 ** -24, 1 - 2 ** -24],
        [0.125, 0.3],
        [0.875, 0],
      ].map(([u, v]) => [shape, 1, 0.4, u!, v!]),
    );
    const cases = casesFrom(
      81,
      3000,
      (draw) => [Math.floor(3 * draw()), size(draw), size(draw), draw(), draw()],
      edges,
    );
    const { given, givenCount, rows } = floatCases(cases);
    const { values } = await glsl.evaluate({
      chunks: [faceChunk],
      body: `
        Face face = Face(int(given(0)), vec2(given(1), given(2)));
        vec2 place = placeOnFace(face, given(3), given(4)) / given(1);
        give(0, place.x); give(1, place.y);
        give(2, faceArea_m2(face)); give(3, faceRadius_m(face));`,
      given,
      givenCount,
      resultCount: 4,
    });
    const point = { r_m: 0, t_m: 0 };
    const places: number[] = [];
    const sizes: number[] = [];
    for (const [shape, across, up, u, v] of rows) {
      const face = faceOf(shape!, across!, up!);
      placeOnFace(face, u!, v!, point);
      const span = face.shape === 'rectangle' ? Math.max(1, up! / across!) : 1;
      places.push(point.r_m / across! / span, point.t_m / across! / span);
      sizes.push(faceArea_m2(face), faceRadius_m(face));
    }
    const spans = rows.map(([shape, across, up]) => (shape === 1 ? Math.max(1, up! / across!) : 1));
    const of = (k: number) => rows.map((_, i) => values[4 * i + k]!);
    // As part of the size of the face: a few roundings.
    expectAgreement(
      ['placeOnFace r/size', 'placeOnFace t/size'],
      rows,
      rows.flatMap((_, i) => [values[4 * i]! / spans[i]!, values[4 * i + 1]! / spans[i]!]),
      places,
      { absolute: 5e-7 },
    );
    expectAgreement(
      ['faceArea_m2', 'faceRadius_m'],
      rows,
      rows.flatMap((_, i) => [of(2)[i]!, of(3)[i]!]),
      sizes,
      { relative: 1e-6 },
    );
  });

  it('has the same edges', async () => {
    const cases = casesFrom(82, 4000, (draw) => [
      Math.floor(3 * draw()),
      size(draw),
      size(draw),
      3 * draw() - 1.5,
      3 * draw() - 1.5,
    ]);
    const { given, givenCount, rows } = floatCases(cases);
    const { values } = await glsl.evaluate({
      chunks: [faceHit],
      body: `
        Face face = Face(int(given(0)), vec2(given(1), given(2)));
        give(0, onFace(face, given(3) * given(1), given(4) * given(1)) ? 1.0 : 0.0);`,
      given,
      givenCount,
      resultCount: 1,
    });
    let undecided = 0;
    let on = 0;
    for (const [i, [shape, across, up, r, t]] of rows.entries()) {
      const within = (scale: number) =>
        onFace(faceOf(shape!, across!, up!), r! * across! * scale, t! * across! * scale);
      if (within(1) !== within(1 + 1e-6) || within(1) !== within(1 - 1e-6)) undecided++;
      else expect(values[i], `case ${i}: [${rows[i]}]`).toBe(within(1) ? 1 : 0);
      if (within(1)) on++;
    }
    expect(undecided).toBeLessThan(5);
    expect(on).toBeGreaterThan(800);
  });
});

describe('where a ray lies in a lamp’s cone', () => {
  const cone = (half_deg: number, radius_m: number): LitCone =>
    litCone(
      lampFrame([3, 2.5, -1], [-1, 0.4, 2]),
      { shape: 'disc', radius_m },
      { kind: 'beam', peak_cd: 1, beam_deg: half_deg, field_deg: 1.6 * half_deg },
      0.25,
    )!;
  const CONES = [cone(3, 0.02), cone(12, 0.1), cone(40, 0.2), cone(70, 0.5), cone(90, 0.01)];

  it('agrees, rays that miss it too', async () => {
    const draw1 = (draw: () => number) => {
      const { apex_m, axis, cosine } = CONES[Math.floor(draw() * CONES.length)]!;
      const o = [60 * draw() - 30, 8 * draw() - 1, 60 * draw() - 30];
      const d = draw() < 0.1 ? Array.from(axis) : unitVector(draw);
      return [...apex_m, ...axis, cosine, ...o, ...d, draw() < 0.3 ? 1e5 : 40 * draw()];
    };
    const { given, givenCount, rows } = floatCases(casesFrom(83, 6000, draw1));
    const { values } = await glsl.evaluate({
      chunks: [coneChunk],
      body: `
        vec2 stretch;
        bool meets = withinCone(given3(0), given3(3), given(6), given3(7), given3(10), given(13), stretch);
        give(0, meets ? 1.0 : 0.0); give(1, stretch.x); give(2, stretch.y);`,
      given,
      givenCount,
      resultCount: 3,
    });
    const stretch: Stretch = { from: 0, to: 0 };
    const kept: number[][] = [];
    const got: number[] = [];
    const expected: number[] = [];
    let misses = 0;
    let undecided = 0;
    for (const [i, row] of rows.entries()) {
      const meets = (by: number) => {
        const [ax, ay, az, x, y, z, cosine, ox, oy, oz, dx, dy, dz, D] = row;
        const moved = {
          apex_m: Float64Array.of(ax!, ay!, az!),
          axis: Float64Array.of(x!, y!, z!),
          cosine: cosine! + by,
        };
        return withinCone(moved, ox!, oy!, oz!, dx!, dy!, dz!, D!, stretch);
      };
      const edge = 1e-5;
      const ends = (by: number) => (meets(by) ? [stretch.from, stretch.to] : [0, -1]);
      const [narrow, wide] = [ends(edge), ends(-edge)];
      // Near the rim a hundred-thousandth of the cosine decides: there the quadratic turns into a square root of nothing.
      const loose = (k: number) => Math.abs(narrow[k]! - wide[k]!) > 0.02 * Math.max(1, Math.abs(wide[k]!));
      if (loose(0) || loose(1)) {
        undecided++;
        continue;
      }
      const truth = ends(0);
      const hit = truth[1]! > truth[0]!;
      expect(values[3 * i], `case ${i}: [${row}]`).toBe(hit ? 1 : 0);
      if (!hit) {
        misses++;
        continue;
      }
      kept.push([...row]);
      got.push(values[3 * i + 1]!, values[3 * i + 2]!);
      expected.push(...truth);
    }
    expect(misses).toBeGreaterThan(1000);
    expect(kept.length).toBeGreaterThan(1000);
    expect(undecided).toBeLessThan(600);
    // Distances of 50 m in single precision, over the angle at which the cone is met; a stretch only says where to look.
    expectAgreement(['withinCone from', 'withinCone to'], kept, got, expected, {
      absolute: 2e-3,
      relative: 1e-4,
    });
  });
});

describe('how strongly a lamp shines', () => {
  it('follows the core’s table of a beam', async () => {
    const beams = [
      [2, 4],
      [1, 3],
      [8, 14],
      [30, 31],
      [50, 80],
      [120, 170],
    ].map(
      ([beam_deg, field_deg]): Extract<Distribution, { kind: 'beam' }> => ({
        kind: 'beam',
        peak_cd: 140_000,
        beam_deg: beam_deg!,
        field_deg: field_deg!,
      }),
    );
    const tables = beams.map((beam) => beamTableOf(beam)!);
    const toward = (beam: number, gamma: number, turn: number) => [
      beam,
      Math.sin(gamma) * Math.cos(turn),
      Math.sin(gamma) * Math.sin(turn),
      Math.cos(gamma),
    ];
    const edges = beams.flatMap((_, i) =>
      [0, 1e-5, 1e-3, Math.PI / 2, Math.PI].map((gamma) => toward(i, gamma, 1)),
    );
    const cases = casesFrom(
      91,
      6000,
      (draw) => {
        const beam = Math.floor(draw() * beams.length);
        const reach = (beams[beam]!.field_deg * Math.PI) / 180;
        return toward(beam, draw() < 0.8 ? Math.min(Math.PI, reach * draw()) : Math.PI * draw(), 7 * draw());
      },
      edges,
    );
    const { given, givenCount, rows } = floatCases(cases);
    const { values } = await glsl.evaluate({
      chunks: [beamTable, numberReader([beamTable], 'float photometryAt(int i) { return numberAt(i); }')],
      body: `
        float stepsPerChord[${tables.length}] = float[${tables.length}](${tables.map((table) => table.stepsPerChord).join(', ')});
        int beam = int(given(0));
        BeamTable table = BeamTable(beam * ${tables[0]!.candela.length}, stepsPerChord[beam]);
        give(0, tabulatedBeam(table, given(1), given(2), given(3)) / 140000.0);`,
      given,
      givenCount,
      resultCount: 1,
      textures: { numberTexels: numberTexels(tables.flatMap((table) => Array.from(table.candela))) },
    });
    // The core takes the chord from `a` in double precision: of the rounded direction it must be asked by its true angle.
    const expected = rows.map(
      ([beam, r, t, a]) =>
        tabulatedBeam(tables[beam!]!, Math.cos(Math.atan2(Math.hypot(r!, t!), a!))) / 140_000,
    );
    // A direction is rounded to 6e-8 of a radian and a step of the chord to 2048 · 6e-8; the steepest flank here falls by 55
    // a radian (2°) and by a 27th a step (30/31).
    expectAgreement(['tabulatedBeam/peak'], rows, values, expected, { absolute: 1e-5 });
  });

  const FILES = [
    'asym-C-h0-360.ies',
    'bilateral-C-h90-270.ies',
    'quadrant-C-h0-90.ies',
    'gauss-spot-C.ies',
    'uneven-gamma-step0.ldt',
    'uplight-C-v90-180.ies',
    'isym3-c90c270.ldt',
    'field-typeB-full.ies',
    'field-typeB-h0-90.ies',
    'field-typeA-full.ies',
  ];

  it('follows measured tables of type A, B and C in both angles', async () => {
    const distributions: Distribution[] = [
      { kind: 'lambert', peak_cd: 1000 },
      ...FILES.map((file) => synthetic(file).distribution),
    ];
    const tables = distributions.filter((d): d is CandelaTable => d.kind === 'table');
    expect(new Set(tables.map((table) => table.goniometry))).toEqual(new Set(['A', 'B', 'C']));
    const numbers = tables.flatMap((t) => [...t.vertical_deg, ...t.horizontal_deg, ...t.candela]);
    const starts = [0];
    for (const t of tables)
      starts.push(starts.at(-1)! + t.vertical_deg.length + t.horizontal_deg.length + t.candela.length);
    const made = distributions.map((d) => {
      if (d.kind !== 'table') return 'Distribution(LAMBERT, 1000.0, BeamTable(0, 0.0), 0, 0, 0)';
      const at = starts[tables.indexOf(d)]!;
      return `Distribution(TYPE_${d.goniometry}, 0.0, BeamTable(0, 0.0), ${at}, ${d.vertical_deg.length}, ${d.horizontal_deg.length})`;
    });
    const axes = [
      [0, 0, 1],
      [0, 0, -1],
      [1, 0, 0],
      [-1, 0, 0],
      [0, 1, 0],
      [0, -1, 0],
    ];
    const edges = distributions.flatMap((_, i) => axes.map((axis) => [i, ...axis]));
    const draw1 = (draw: () => number) => {
      const direction = unitVector(draw);
      // Every other direction within 30° of the axis, where spots have their light.
      if (draw() < 0.5) {
        const gamma = 0.5 * draw();
        const turn = 7 * draw();
        direction[0] = Math.sin(gamma) * Math.cos(turn);
        direction[1] = Math.sin(gamma) * Math.sin(turn);
        direction[2] = Math.cos(gamma);
      }
      return [Math.floor(draw() * distributions.length), ...direction];
    };
    const { given, givenCount, rows } = floatCases(casesFrom(92, 8000, draw1, edges));
    const { values } = await glsl.evaluate({
      chunks: [
        intensity,
        numberReader([beamTable, intensity], 'float photometryAt(int i) { return numberAt(i); }'),
      ],
      body: `
        Distribution distributions[${made.length}] = Distribution[${made.length}](${made.join(', ')});
        give(0, intensityToward(distributions[int(given(0))], given(1), given(2), given(3)));`,
      given,
      givenCount,
      resultCount: 1,
      textures: { numberTexels: numberTexels(numbers) },
    });
    const peaks = distributions.map((d) =>
      d.kind === 'table' ? d.candela.reduce((m, I) => Math.max(m, I), 0) : 1000,
    );
    const kept: number[][] = [];
    const got: number[] = [];
    const expected: number[] = [];
    let lit = 0;
    for (const [i, row] of rows.entries()) {
      const [d, r, t, a] = row as [number, number, number, number];
      const I = intensityToward(distributions[d]!, r, t, a) / peaks[d]!;
      // Within rounding of the edge of the measured range, dark and lit are both right.
      const nudged = [1e-6, -1e-6].flatMap((e) => [
        intensityToward(distributions[d]!, r + e, t, a),
        intensityToward(distributions[d]!, r, t + e, a),
        intensityToward(distributions[d]!, r, t, a + e),
      ]);
      if (I !== 0 || nudged.every((near) => near === 0)) {
        if (I !== 0 && nudged.some((near) => near === 0) && values[i] === 0) continue;
        kept.push([...row]);
        got.push(values[i]! / peaks[d]!);
        expected.push(I);
        if (I > 0) lit++;
      }
    }
    expect(kept.length).toBeGreaterThan(7900);
    expect(lit).toBeGreaterThan(3000);
    // atan to 2e-5° here; the steepest flank of these files falls by less than 0.3 of the peak a degree.
    expectAgreement(['intensityToward/peak'], kept, got, expected, { absolute: 1e-5 });
  });
});
