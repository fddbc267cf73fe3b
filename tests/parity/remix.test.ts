import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { thinLens } from '../../src/core/camera/thin-lens.ts';
import { addSamples, meanRgb, newFramePart, variances } from '../../src/core/frame/frame-part.ts';
import { placementFrom } from '../../src/core/geometry/placement.ts';
import type { LightModel } from '../../src/core/light-model/light-model.ts';
import type { Vec3 } from '../../src/core/math/vec3.ts';
import { newTracer } from '../../src/core/transport/tracer.ts';
import { previewScene } from '../../src/preview/renderer/preview-scene.ts';
import { lampAt, modelOf, opaque } from '../support/light-models.ts';
import { type NoisyFrame, tileDifferences, writeComparison } from './support/compare-frames.ts';
import { type Frames, openFrames, type RemixedFrame } from './support/frames.ts';

const WIDTH = 32;
const HEIGHT = 18;
const TILE_px = 9;
const SAMPLES = 48;
/** From here on a lamp's samples need not be as many as those of the others (renderer/accumulation.ts). */
const CAUGHT_UP = 64;
/** A frame is as another within the larger of this and of three standard errors. */
const TOLERANCE = 2 ** 0.05 - 1;
const STANDARD_ERRORS = 3;

const BEAM = { kind: 'beam', peak_cd: 3000, beam_deg: 40, field_deg: 70 } as const;
const DISC = { shape: 'disc', radius_m: 0.15 } as const;
/** Lamps from three sides, a thing that throws shadows and light, and a sky. */
const MODEL = modelOf({
  parts: [
    opaque({ kind: 'box', placement: placementFrom([0, -0.1, 0]), halfSize_m: [6, 0.1, 6] }),
    opaque({ kind: 'box', placement: placementFrom([0, 0.5, -1]), halfSize_m: [0.8, 0.5, 0.1] }, 1),
  ],
  surfaces: [
    { reflectance: [0.5, 0.5, 0.5] as Vec3 },
    { reflectance: [0.1, 0.05, 0.05] as Vec3, coatIor: 1.5, roughness: 0.4 },
  ],
  lamps: [
    lampAt([2.5, 2.5, 1], [0, 0, 0], BEAM, DISC),
    lampAt([-2.5, 2, 0], [0, 0, 0], BEAM, DISC),
    lampAt([0, 3, -3], [0, 0, 0], BEAM, DISC),
  ],
  skyIlluminance_lx: 10,
});
const SCENE = previewScene(MODEL);
const LENS = thinLens({
  position_m: [0, 2.2, 4.5],
  look_m: [0, 0.3, 0],
  roll_deg: 0,
  sensor_mm: [36, 24],
  aspect: 16 / 9,
  focal_mm: 28,
  fNumber: 22,
  focus_m: null,
});
const VIEW = { lens: LENS, width: WIDTH, height: HEIGHT };

const mixOf = (...levels: number[]): Vec3[] => levels.map((level) => [level, level, level]);
const ALL = mixOf(1, 1, 1);
const DARK = mixOf(0, 0, 0);

let frames: Frames;
beforeAll(async () => {
  frames = await openFrames();
});
afterAll(() => frames.close());

describe('a frame whose light is kept by lamp', () => {
  it('is the sum of its lamps alone, at whatever levels and in whatever colours they are mixed', async () => {
    const amber: Vec3 = [0.5, 0.25, 0.0625];
    const [all, ...others] = await frames.remix(SCENE, VIEW, [
      { mix: ALL, more: SAMPLES },
      { mix: DARK, more: 0 },
      { mix: mixOf(1, 0, 0), more: 0 },
      { mix: mixOf(0, 1, 0), more: 0 },
      { mix: mixOf(0, 0, 1), more: 0 },
      { mix: [[2, 2, 2], amber, [0, 0, 0]], more: 0 },
      { mix: ALL, more: 0 },
    ]);
    const [sky, first, second, third, mixed, again] = others.map(({ rgb }) => rgb);
    // Mixing costs no sample and is an edition of its own each time.
    expect(others.map(({ samples }) => samples)).toEqual(Array(6).fill(SAMPLES));
    expect(others.map(({ edition }) => edition - all!.edition)).toEqual([1, 2, 3, 4, 5, 6]);
    expect(again).toEqual(all!.rgb);
    // derived: light adds up, lamps and the sky that is in every one of them
    expectEqual(all!.rgb, (i) => first![i]! + second![i]! + third![i]! - 2 * sky![i]!);
    expectEqual(
      mixed!,
      (i) => 2 * (first![i]! - sky![i]!) + amber[i % 3]! * (second![i]! - sky![i]!) + sky![i]!,
    );
    expect(sky!.some((x, i) => x < 0.9 * first![i]!)).toBe(true);
  });

  it('is, re-mixed, that which is traced at those levels', async () => {
    const levels = [0.25, 2, 0.5];
    const [, mixed, longer] = await frames.remix(SCENE, VIEW, [
      { mix: ALL, more: SAMPLES },
      { mix: mixOf(...levels), more: 4 },
      { more: SAMPLES - 4 },
    ]);
    // derived: the same levels by the core, with its noise
    const core = coreFrame(levels);
    expectLike('re-mixed', core, mixed!);
    expectLike('re-mixed and sampled on', core, longer!);
  });

  it('shows a lamp that was off until now, without losing what it has of the others', async () => {
    const [without, atOnce, soon, alone, withoutAgain] = await frames.remix(SCENE, VIEW, [
      { mix: mixOf(1, 1, 0), more: SAMPLES },
      { mix: ALL, more: 0 },
      { more: SAMPLES + 4 },
      { mix: mixOf(0, 0, 1), more: 0 },
      { mix: mixOf(1, 1, 0), more: 4 },
    ]);
    expect(atOnce!.rgb).toEqual(without!.rgb);
    // The third lamp has none of its own yet; then it catches up alone, and all go on together.
    expect([without, atOnce, soon, withoutAgain].map((step) => step!.samples)).toEqual([
      SAMPLES,
      0,
      SAMPLES + 4,
      SAMPLES + 8,
    ]);
    expect(soon!.lost).toBe(0);
    // derived: the same lamps by the core, with its noise
    expectLike('two lamps of three', coreFrame([1, 1, 0]), without!);
    expectLike('the third lamp on', coreFrame([1, 1, 1]), soon!);
    expectLike('the third lamp off again', coreFrame([1, 1, 0]), withoutAgain!);
    const onlyThird = { ...alone!, variances: soon!.variances };
    expectLike('the third lamp alone', coreFrame([0, 0, 1]), onlyThird, WIDTH);
  });

  it.each([
    ['by one program', false],
    ['in passes', true],
  ] as const)(
    'drawn %s keeps the light of the others, to the bit, while a lamp is moved, and traces it alone until it has caught up',
    async (_, apart) => {
      const moved = sceneWith(lampAt([-1, 3, 2], [0.5, 0, -1], BEAM, DISC));
      const again = sceneWith(lampAt([-2, 2, 2], [0, 0, 0], BEAM, DISC));
      const few = CAUGHT_UP / 4;
      const steps = await frames.remix(
        previewScene(MODEL),
        VIEW,
        [
          { mix: ALL, more: SAMPLES },
          { mix: mixOf(1, 0, 1), more: 0 },
          { scene: previewScene(moved), mix: ALL, more: few },
          { mix: mixOf(1, 0, 1), more: 0 },
          { mix: ALL, more: 1 },
          { scene: previewScene(again), mix: ALL, more: SAMPLES },
          { more: 4 },
        ],
        apart,
      );
      const [, others, , othersStill, , , last] = steps;
      expect(steps.map(({ samples }) => samples)).toEqual([
        SAMPLES,
        SAMPLES,
        few,
        SAMPLES,
        few + 1,
        SAMPLES,
        SAMPLES + 4,
      ]);
      expect(othersStill!.rgb).toEqual(others!.rgb);
      // Noise is told of all lamps together or not at all.
      expect(steps.map(({ noise }) => Number.isNaN(noise))).toEqual([
        false,
        true,
        true,
        true,
        true,
        true,
        false,
      ]);
      // derived: the lamp where it stands last, by the core, with its noise
      expectLike('a lamp moved twice', coreFrame([1, 1, 1], again), last!);
    },
  );

  it('begins anew when more than lamps is another', async () => {
    const darker = modelOf({ lamps: [], skyIlluminance_lx: 5 }).sky;
    const [, , onlySky] = await frames.remix(SCENE, VIEW, [
      { mix: ALL, more: 4 },
      { scene: previewScene({ ...MODEL, sky: darker }), more: 1 },
      { mix: DARK, more: 0 },
    ]);
    expect(onlySky!.samples).toBe(1);
  });

  it('begins anew where lamps share a sum and their levels change', async () => {
    const crowd = Array.from({ length: 8 }, (_, i) => MODEL.lamps[i % 3]!);
    const crowded = modelOf({ lamps: crowd });
    const scene = previewScene({
      ...MODEL,
      lamps: crowd,
      lampOnSurface_RGB: Float64Array.from(
        crowd.flatMap((_, i) => [...MODEL.lampOnSurface_RGB.subarray(6 * (i % 3), 6 * (i % 3) + 6)]),
      ),
      sky: crowded.sky,
    });
    const ones = Array<number>(8).fill(1);
    const [before, , after] = await frames.remix(scene, VIEW, [
      { mix: mixOf(...ones), more: 4 },
      // derived: seven sums, the first shared by the sky and the last two lamps as all are as bright
      { mix: mixOf(0.5, ...ones.slice(1)), more: 0 },
      { mix: mixOf(0.5, 1, 1, 1, 1, 1, 1, 0.5), more: 1 },
    ]);
    expect(before!.samples).toBe(4);
    expect(after!.samples).toBe(1);
  });

  it('does not tell its noise before four samples of a mix; then it falls', async () => {
    const steps = await frames.remix(SCENE, VIEW, [
      { mix: ALL, more: 4 },
      { more: SAMPLES - 4 },
      { mix: mixOf(0.5, 1, 1), more: 0 },
      { more: 3 },
      { more: 1 },
      { more: SAMPLES },
    ]);
    const noises = steps.map(({ noise }) => noise);
    expect(noises.map(Number.isNaN)).toEqual([false, false, true, true, false, false]);
    expect(steps.map(({ variances: known }) => known === null)).toEqual([
      false,
      false,
      true,
      true,
      false,
      false,
    ]);
    const [first, full, , , soon, last] = noises as [number, number, number, number, number, number];
    // derived: noise falls with the root of the samples or faster; 48 is twelve times 4, and half of that is the least
    expect(full).toBeLessThan(first / Math.sqrt(6));
    // derived: after a re-mix the older samples count, so that these are 52, thirteen times 4; half of that again
    expect(soon).toBeLessThan(first / Math.sqrt(6.5));
    expect(soon).toBeGreaterThan(full / 2);
    expect(last).toBeLessThan(soon);
  });
});

/** Within what single precision leaves of sums of numbers that are as large. */
function expectEqual(got: Float32Array, expected: (i: number) => number): void {
  const largest = Math.max(...got);
  let furthest = 0;
  for (const [i, value] of got.entries())
    furthest = Math.max(furthest, Math.abs(value - expected(i)) / largest);
  expect(furthest).toBeLessThan(2e-6);
}

/** The scene with another second lamp. */
function sceneWith(lamp: LightModel['lamps'][number]): LightModel {
  return { ...MODEL, lamps: MODEL.lamps.with(1, lamp) };
}

function coreFrame(levels: readonly number[], of = MODEL): NoisyFrame {
  const model: LightModel = {
    ...of,
    lamps: of.lamps.map((lamp, i) => ({ ...lamp, gain: levels[i]! })),
  };
  const part = newFramePart(WIDTH, HEIGHT, 0, HEIGHT, 7);
  addSamples(newTracer(model), LENS, part, SAMPLES / 4);
  return { width: WIDTH, height: HEIGHT, rgb: meanRgb(part), variances: variances(part) };
}

function expectLike(name: string, core: NoisyFrame, got: RemixedFrame, tile_px = TILE_px): void {
  const card: NoisyFrame = { ...core, rgb: got.rgb, variances: got.variances! };
  const tiles = tileDifferences(core, card, tile_px);
  const apart = tiles.filter(
    ({ share, error }) => !(Math.abs(share) <= Math.max(TOLERANCE, STANDARD_ERRORS * error)),
  );
  const picture = apart.length > 0 ? writeComparison(`remix ${name}`, core, card) : '';
  expect(apart, `tiles that differ; see ${picture}`).toEqual([]);
}
