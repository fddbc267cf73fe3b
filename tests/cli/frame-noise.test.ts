import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { addSamples, meanRgb, newFramePart, variances } from '../../src/core/frame/frame-part.ts';
import { withoutNoise } from '../../src/core/frame/noise-filter.ts';
import { luminance } from '../../src/core/transport/light-bins.ts';
import { newTracer } from '../../src/core/transport/tracer.ts';
import { chosenCamera, lensOf } from '../../src/scene/camera/scene-camera.ts';
import { compileScene } from '../../src/scene/compile/compile-scene.ts';
import { openScene } from '../../src/scene/file/open-scene.ts';

const [W, H] = [96, 54];
const SEEDS = { frame: 5, truth: 77 };
/** Per replicate: 12 samples a pixel against 120. */
const [FEW, MANY] = [3, 30];

describe('a frame with its noise filtered out', () => {
  it('is as near the truth as it says: the test room', () => {
    // derived: a frame of many times the samples, its own noise taken off
    const text = readFileSync(new URL('../../scenes/test-room.json', import.meta.url), 'utf8');
    const document = openScene(text).document!;
    const tracer = newTracer(compileScene(document, { photometry: new Map(), meshes: new Map() }));
    const lens = lensOf(chosenCamera(document));
    const rendered = (seed: number, samples: number) => {
      const part = newFramePart(W, H, 0, H, seed);
      addSamples(tracer, lens, part, samples);
      return part;
    };
    const few = rendered(SEEDS.frame, FEW);
    const many = rendered(SEEDS.truth, MANY);
    const truth = luminances(meanRgb(many));
    const truthVariance = variances(many);
    const quiet = withoutNoise({
      width_px: W,
      height_px: H,
      halves: [meanRgb(few, 0), meanRgb(few, 1)],
      variance: variances(few).map((v) => 2 * v),
    });
    const lit = [...truth.keys()].filter((p) => truth[p]! > 1e-3 * Math.max(...truth));
    const off = (rgb: Float64Array) => {
      const Y = luminances(rgb);
      // The median of |x| of a normal x is 0.6745 of its deviation.
      const all = median(lit.map((p) => Math.abs(Y[p]! / truth[p]! - 1))) / 0.6745;
      const ofTruth = median(lit.map((p) => Math.sqrt(truthVariance[p]!) / truth[p]!));
      return Math.sqrt(Math.max(0, all * all - ofTruth * ofTruth));
    };
    const Y = luminances(quiet.rgb);
    const said = median(lit.map((p) => quiet.error[p]! / Y[p]!));
    const before = off(meanRgb(few));
    const after = off(quiet.rgb);
    console.log(`noise ${share(before)}, filtered ${share(after)}, said ${share(said)}`);
    expect(after).toBeLessThan(before / 2.5);
    expect(after).toBeLessThan(1.6 * said);
    expect(after).toBeGreaterThan(said / 3);
    // Bare lamps, a thousand times what is around them, are left out: their edges are what the filter does not keep.
    const bright = 100 * median(lit.map((p) => truth[p]!));
    const scene = lit.filter((p) => truth[p]! < bright);
    const total = (values: Float64Array) => scene.reduce((sum, p) => sum + values[p]!, 0);
    expect(Math.abs(total(Y) / total(luminances(meanRgb(few))) - 1)).toBeLessThan(0.02);
  }, 120_000);
});

function luminances(rgb: Float64Array): Float64Array {
  return Float64Array.from({ length: rgb.length / 3 }, (_, p) =>
    luminance(rgb[3 * p]!, rgb[3 * p + 1]!, rgb[3 * p + 2]!),
  );
}

function median(values: number[]): number {
  return values.sort((a, b) => a - b)[values.length >> 1]!;
}

function share(x: number): string {
  return `${(100 * x).toFixed(1)} %`;
}
