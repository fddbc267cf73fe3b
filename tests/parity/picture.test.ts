import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { aimThrough, newCameraRay, type ThinLens, thinLens } from '../../src/core/camera/thin-lens.ts';
import { channelMix } from '../../src/core/monochrome/channel-mix.ts';
import { hueCurve, hueOf } from '../../src/core/monochrome/hue-curve.ts';
import { displayColour } from '../../src/core/picture/develop.ts';
import { FALSE_COLOUR_SCALE, falseColourOf } from '../../src/core/picture/false-colour.ts';
import { withinDisplay } from '../../src/core/picture/gamut.ts';
import { luminanceOfRgb } from '../../src/core/picture/linear-rgb.ts';
import { srgbEncoded } from '../../src/core/picture/srgb-transfer.ts';
import { toneCurve } from '../../src/core/picture/tone-curve.ts';
import { whiteBalance } from '../../src/core/picture/white-balance.ts';
import { channelMix as channelMixChunk } from '../../src/preview/shaders/channel-mix.ts';
import { develop } from '../../src/preview/shaders/develop.ts';
import { falseColour } from '../../src/preview/shaders/false-colour.ts';
import { gamut } from '../../src/preview/shaders/gamut.ts';
import { hueCurve as hueCurveChunk } from '../../src/preview/shaders/hue-curve.ts';
import { srgbTransfer } from '../../src/preview/shaders/srgb-transfer.ts';
import { thinLens as thinLensChunk } from '../../src/preview/shaders/thin-lens.ts';
import { toneCurve as toneCurveChunk } from '../../src/preview/shaders/tone-curve.ts';
import { casesFrom, expectAgreement, floatCases, triples } from './support/agreement.ts';
import { type Glsl, openGlsl } from './support/glsl.ts';

let glsl: Glsl;
beforeAll(async () => {
  glsl = await openGlsl();
});
afterAll(() => glsl?.close());

const RGB = (name: string) => ['r', 'g', 'b'].map((channel) => `${name}.${channel}`);

type Rgb = readonly [number, number, number];

/** Scene light over forty stops, greys and pure colours among it, some of it outside the triangle of the primaries. */
function sceneLight(draw: () => number): [number, number, number] {
  const size = 2 ** (28 * draw() - 16);
  const pale = draw();
  const component = () => size * (1 - pale * draw() * (draw() < 0.1 ? 1.15 : 1));
  return [component(), component(), component()];
}

const EDGES: Rgb[] = [
  [0, 0, 0],
  [1, 1, 1],
  [1, 0, 0],
  [0, 0, 1e4],
  [-1, -1, -1],
  [1.2, 0.4, -0.1],
  [1e30, 1e30, 1e30],
  [3e38, 0, 0],
  [1e-30, 1e-30, 1e-30],
];

/** A 3 × 3 matrix by rows as GLSL writes it, by columns. */
function glslMat3(rows: readonly Rgb[]): string {
  const columns = [0, 1, 2].flatMap((column) => rows.map((row) => row[column]));
  return `mat3(${columns.map((x) => `float(${x})`).join(', ')})`;
}

describe('the camera', () => {
  const lensOf = (numbers: readonly number[]): ThinLens =>
    thinLens({
      position_m: [numbers[0]!, numbers[1]!, numbers[2]!],
      look_m: [numbers[3]!, numbers[4]!, numbers[5]!],
      roll_deg: numbers[6]!,
      sensor_mm: [36, 24],
      aspect: 16 / 9,
      focal_mm: numbers[7]!,
      fNumber: numbers[8]!,
      focus_m: numbers[9]!,
    });

  it('sends its rays where the core’s does', async () => {
    const draw1 = (draw: () => number) => {
      const angle = 2 * Math.PI * draw();
      const radius = Math.sqrt(draw());
      const lens = lensOf([
        ...[30 * draw() - 15, 3 * draw(), 30 * draw() - 15],
        ...[8 * draw() - 4, 2 * draw(), 8 * draw() - 4],
        20 * draw() - 10,
        ...[14 + 120 * draw(), 1.4 + 10 * draw(), 10 ** (2.5 * draw() - 0.3)],
      ]);
      return [...numbersOf(lens), draw(), draw(), radius * Math.cos(angle), radius * Math.sin(angle)];
    };
    const down = numbersOf(lensOf([0, 3, 0, 0, 0, 0, 30, 35, 2, 3]));
    const { given, givenCount, rows } = floatCases(
      casesFrom(121, 2000, draw1, [
        [...down, 0, 0, 0, 0],
        [...down, 1, 1, 1, 0],
        [...down, 0.5, 0.5, 0, 0],
      ]),
    );
    const { values } = await glsl.evaluate({
      chunks: [thinLensChunk],
      body: `
        ThinLens lens = ThinLens(given3(0), given3(3), given3(6), given3(9), given(12), given(13), given(14), given(15));
        vec3 o;
        vec3 d;
        aimThrough(lens, given(16), given(17), given(18), given(19), o, d);
        give(0, o); give(3, d);`,
      given,
      givenCount,
      resultCount: 6,
    });
    const ray = newCameraRay();
    const expected = rows.flatMap((n) => {
      const triple = (at: number): Rgb => [n[at]!, n[at + 1]!, n[at + 2]!];
      const lens: ThinLens = {
        position_m: triple(0),
        forward: triple(3),
        right: triple(6),
        up: triple(9),
        halfWidth: n[12]!,
        halfHeight: n[13]!,
        pupil_m: n[14]!,
        focus_m: n[15]!,
      };
      aimThrough(lens, n[16]!, n[17]!, n[18]!, n[19]!, ray);
      return [ray.ox, ray.oy, ray.oz, ray.dx, ray.dy, ray.dz];
    });
    // Coordinates up to 15 m, directions of length 1: a few roundings of 6e-8 each.
    expectAgreement(triples('aimThrough o', 'aimThrough d'), rows, values, expected, {
      absolute: 4e-7,
      relative: 2e-7,
    });
  });

  function numbersOf(lens: ThinLens): number[] {
    const { position_m, forward, right, up, halfWidth, halfHeight, pupil_m, focus_m } = lens;
    return [...position_m, ...forward, ...right, ...up, halfWidth, halfHeight, pupil_m, focus_m];
  }
});

const RANGES = [
  { white_stops: 5.5, floor_stops: -8 },
  { white_stops: 2.48, floor_stops: -3 },
  { white_stops: 8, floor_stops: -12 },
];

describe('the tone curve', () => {
  it('is the core’s, from black to beyond white', async () => {
    const edges = RANGES.flatMap(({ white_stops, floor_stops }) =>
      [0, -1, 1e-38, 3e38, 1, 2, 2 ** (floor_stops / 2), 2 ** floor_stops, 2 ** (white_stops - 1e-4)].map(
        (exposure) => [white_stops, floor_stops, exposure],
      ),
    );
    const cases = casesFrom(
      122,
      4000,
      (draw) => {
        const { white_stops, floor_stops } = RANGES[Math.floor(3 * draw())]!;
        return [white_stops, floor_stops, 2 ** (floor_stops - 1 + (white_stops - floor_stops + 2) * draw())];
      },
      edges,
    );
    const { given, givenCount, rows } = floatCases(cases);
    const { values } = await glsl.evaluate({
      chunks: [toneCurveChunk],
      body: 'give(0, toneCurve(ToneRange(given(0), given(1)), given(2)));',
      given,
      givenCount,
      resultCount: 1,
    });
    const expected = rows.map(([white_stops, floor_stops, exposure]) =>
      toneCurve({ white_stops: white_stops!, floor_stops: floor_stops! }).display(exposure!),
    );
    // log2 to 1e-6 of a stop; 8-bit steps of a display are 4e-3 of white, of dark tones 3e-4.
    expectAgreement(['toneCurve'], rows, values, expected, { relative: 1e-5, absolute: 1e-6 });
  });

  it('gives white for light that single precision cannot hold, and black for what is no number', async () => {
    const infinite = 0x7f800000;
    const { values } = await glsl.evaluate({
      chunks: [toneCurveChunk],
      body: 'give(0, toneCurve(ToneRange(5.5, -8.0), given(0)));',
      given: Uint32Array.of(infinite, 0xff800000, 0x7fc00000),
      givenCount: 1,
      resultCount: 1,
    });
    // derived: beyond the white end all is white; a negative exposure and NaN are none (tone-curve.ts).
    expect([...values]).toEqual([1, 0, 0]);
  });
});

describe('display colour', () => {
  it('stays within the display as the core’s does', async () => {
    const cases = casesFrom(123, 4000, (draw) => [...sceneLight(draw), 1.2 * draw() - 0.1], [
      ...EDGES.filter((rgb) => Math.abs(rgb[0]) < 1e20).flatMap((rgb) =>
        [0, 0.18, 0.99, 1].map((y) => [...rgb, y]),
      ),
    ]);
    const { given, givenCount, rows } = floatCases(cases);
    const { values } = await glsl.evaluate({
      chunks: [gamut],
      body: 'give(0, withinDisplay(given3(0), given(3)));',
      given,
      givenCount,
      resultCount: 3,
    });
    const expected = rows.flatMap(([r, g, b, y]) => [...withinDisplay([r!, g!, b!], y!)]);
    // Luminance of a colour with a negative part cancels a little; no more than five times.
    expectAgreement(RGB('withinDisplay'), rows, values, expected, { absolute: 2e-6 });
  });

  it('is white-balanced and toned as the core’s is', async () => {
    const balances = [1000, 2700, 3200, 4500, 5600, 6504, 10_000, 25_000];
    const { given, givenCount, rows } = floatCases(
      casesFrom(
        124,
        5000,
        (draw) => [Math.floor(draw() * balances.length), ...sceneLight(draw)],
        EDGES.flatMap((rgb) => balances.map((_, i) => [i, ...rgb])),
      ),
    );
    const { values } = await glsl.evaluate({
      chunks: [develop],
      body: `
        mat3 balances[${balances.length}] = mat3[${balances.length}](${balances.map((K) => glslMat3(whiteBalance(K))).join(',\n')});
        give(0, displayColour(balances[int(given(0))], ToneRange(5.5, -8.0), given3(1)));`,
      given,
      givenCount,
      resultCount: 3,
    });
    const kept: number[][] = [];
    const got: number[] = [];
    const expected: number[] = [];
    for (const [i, row] of rows.entries()) {
      const [k, r, g, b] = row as [number, number, number, number];
      const rgb: Rgb = [r, g, b];
      const shown = displayColour({ whiteBalance_K: balances[k]! })(rgb);
      // Light outside the triangle may have next to no luminance left after a balance, and then any hue.
      const M = whiteBalance(balances[k]!);
      const balanced = M.map((line) => line[0] * r + line[1] * g + line[2] * b) as unknown as Rgb;
      const size = Math.max(...balanced.map(Math.abs));
      if (size > 0 && luminanceOfRgb(balanced) < 0.02 * size) {
        expect([0, 1, 2].every((c) => values[3 * i + c]! >= -1e-6 && values[3 * i + c]! <= 1 + 1e-6)).toBe(
          true,
        );
        continue;
      }
      kept.push([...row]);
      got.push(...values.subarray(3 * i, 3 * i + 3));
      expected.push(...shown);
    }
    expect(kept.length).toBeGreaterThan(4800);
    // The tone curve's 1e-5, and a balance whose numbers cancel up to fifty times.
    expectAgreement(RGB('displayColour'), kept, got, expected, { absolute: 2e-5 });
  });

  it('is stored as the core stores it', async () => {
    const { given, givenCount, rows } = floatCases(
      casesFrom(125, 2000, (draw) => [draw() < 0.3 ? 0.01 * draw() : 1.2 * draw() - 0.1], [
        [0],
        [1],
        [0.0031308],
        [2],
        [-1],
      ]),
    );
    const { values } = await glsl.evaluate({
      chunks: [srgbTransfer],
      body: 'give(0, srgbEncoded(given(0))); give(1, srgbEncoded(vec3(given(0))));',
      given,
      givenCount,
      resultCount: 4,
    });
    const expected = rows.flatMap(([L]) => Array<number>(4).fill(srgbEncoded(L!)));
    // An 8-bit step is 4e-3.
    expectAgreement(['srgbEncoded', ...RGB('srgbEncoded')], rows, values, expected, { absolute: 2e-5 });
  });
});

describe('false colour', () => {
  it('takes the step that the core takes', async () => {
    const edges = FALSE_COLOUR_SCALE.flatMap(({ from_stops, to_stops }) => [
      from_stops + 0.01,
      to_stops - 0.01,
    ])
      .filter(Number.isFinite)
      .map((stops) => [2 ** stops, 2 ** stops, 2 ** stops]);
    const { given, givenCount, rows } = floatCases(
      casesFrom(126, 4000, (draw) => sceneLight(draw), [...edges, ...EDGES.map((rgb) => [...rgb])]),
    );
    const { values } = await glsl.evaluate({
      chunks: [falseColour],
      body: 'give(0, falseColour(given3(0)) * 255.0); give(3, falseColourOf(log2(max(1e-37, given(0)))) * 255.0);',
      given,
      givenCount,
      resultCount: 6,
    });
    let undecided = 0;
    const seen = new Set<string>();
    for (const [i, [r, g, b]] of rows.entries()) {
      for (const [at, Y] of [
        [0, luminanceOfRgb([r!, g!, b!])],
        [3, Math.max(1e-37, r!)],
      ] as const) {
        const stops = Math.log2(Math.max(0, Y));
        if (Math.abs(stops + 0.5 - Math.round(stops + 0.5)) < 1e-4 && Math.abs(stops) < 8) {
          undecided++;
          continue;
        }
        const { rgb, label } = falseColourOf(stops);
        seen.add(label);
        expect(
          [...values.subarray(6 * i + at, 6 * i + at + 3)].map(Math.round),
          `case ${i}: [${rows[i]}]`,
        ).toEqual([...rgb]);
      }
    }
    expect(undecided).toBeLessThan(20);
    expect(seen.size).toBe(FALSE_COLOUR_SCALE.length);
  });
});

describe('monochrome', () => {
  /** Of the channels, which stand behind the number of the setting. */
  const largest = ([, r, g, b]: readonly number[]) =>
    Math.max(1e-30, Math.abs(r!), Math.abs(g!), Math.abs(b!));

  const STOPS = [
    { red: 1, orange: -2, yellow: 3, green: -3, aqua: 0.5, blue: -1.5, purple: 2, magenta: -0.5 },
    { blue: -3 },
    {},
  ];

  it('mixes channels as the core does', async () => {
    const mixes: Rgb[] = [
      [0.3, 0.6, 0.1],
      [1.4, -0.3, -0.1],
      [0, 0, 1],
    ];
    const { given, givenCount, rows } = floatCases(
      casesFrom(127, 2000, (draw) => [Math.floor(3 * draw()), ...sceneLight(draw)]),
    );
    const { values } = await glsl.evaluate({
      chunks: [channelMixChunk],
      body: `
        vec3 mixes[3] = vec3[3](${mixes.map((w) => `vec3(${w.map((x) => `float(${x})`)})`).join(', ')});
        give(0, channelMix(mixes[int(given(0))], given3(1)));`,
      given,
      givenCount,
      resultCount: 1,
    });
    const expected = rows.map(([k, r, g, b]) => channelMix(mixes[k!]!)([r!, g!, b!]));
    // Three products that may cancel: a few roundings of the largest of them, a weight up to 1.4.
    expectAgreement(['channelMix'], rows, values, expected, (_, i) => 5e-7 * largest(rows[i]!));
  });

  it('weighs hues as the core does', async () => {
    const hues = ['red', 'orange', 'yellow', 'green', 'aqua', 'blue', 'purple', 'magenta'] as const;
    const { given, givenCount, rows } = floatCases(
      casesFrom(
        128,
        5000,
        (draw) => [Math.floor(3 * draw()), ...sceneLight(draw)],
        EDGES.slice(0, 6).flatMap((rgb) => [0, 1, 2].map((k) => [k, ...rgb])),
      ),
    );
    const vec4 = (k: number, from: number) =>
      `vec4(${hues
        .slice(from, from + 4)
        .map((hue) => `float(${(STOPS[k] as Record<string, number>)[hue] ?? 0})`)
        .join(', ')})`;
    const { values } = await glsl.evaluate({
      chunks: [hueCurveChunk],
      body: `
        vec4 first[3] = vec4[3](${[0, 1, 2].map((k) => vec4(k, 0)).join(', ')});
        vec4 last[3] = vec4[3](${[0, 1, 2].map((k) => vec4(k, 4)).join(', ')});
        int k = int(given(0));
        give(0, hueCurve(first[k], last[k], given3(1)));
        vec2 hue = hueOf(given3(1));
        give(1, hue.x); give(2, hue.y);`,
      given,
      givenCount,
      resultCount: 3,
    });
    const grey = rows.map(([k, r, g, b]) => hueCurve(STOPS[k!]!)([r!, g!, b!]));
    // Up to three stops of lift; the hue by atan to 1e-5 of a degree, and near grey, where it is not known, it has no weight.
    expectAgreement(
      ['hueCurve'],
      rows,
      rows.map((_, i) => values[3 * i]!),
      grey,
      (_, i) => 1e-5 * largest(rows[i]!),
    );
    const coloured = rows
      .map((row, i) => ({ row, i, of: hueOf([row[1]!, row[2]!, row[3]!]) }))
      .filter(({ of }) => of.purity > 0.01);
    const apart = (degrees: number) => ((((degrees + 180) % 360) + 360) % 360) - 180;
    expectAgreement(
      ['hueOf degrees', 'hueOf purity'],
      coloured.map(({ row }) => row),
      coloured.flatMap(({ i, of }) => [apart(values[3 * i + 1]! - of.hue_deg), values[3 * i + 2]!]),
      coloured.flatMap(({ of }) => [0, of.purity]),
      { absolute: 2e-3 },
    );
  });
});
