import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { addSamples, meanRgb, newFramePart, variances } from '../../src/core/frame/frame-part.ts';
import { newTracer } from '../../src/core/transport/tracer.ts';
import { previewScene } from '../../src/preview/renderer/preview-scene.ts';
import { type NoisyFrame, tileDifferences, writeComparison } from './support/compare-frames.ts';
import { diagnosticFrames } from './support/diagnostic-frames.ts';
import { type Frames, openFrames } from './support/frames.ts';

const WIDTH = 32;
const HEIGHT = 18;
const TILE_px = 9;
/** What a cameraman would not see: the larger of this and of what the noise of both frames allows. */
const TOLERANCE_STOPS = 0.05;
/** Of a whole frame, and of the noise that its many pixels leave. */
const MEAN_TOLERANCE_STOPS = 0.02;
const STANDARD_ERRORS = 3;

let frames: Frames;
beforeAll(async () => {
  frames = await openFrames();
});
afterAll(() => frames.close());

describe("the graphics card's frame", () => {
  for (const { name, model, lens, samples } of diagnosticFrames())
    it(`agrees with the core's: ${name}`, async () => {
      const tracer = newTracer(model);
      const part = newFramePart(WIDTH, HEIGHT, 0, HEIGHT, 7);
      addSamples(tracer, lens, part, samples / 4);
      const core: NoisyFrame = {
        width: WIDTH,
        height: HEIGHT,
        rgb: meanRgb(part),
        variances: variances(part),
      };
      const rendered = await frames.render(
        previewScene(model),
        { lens, width: WIDTH, height: HEIGHT },
        samples,
      );
      const card: NoisyFrame = { ...core, rgb: rendered.rgb, variances: rendered.variances };

      // derived: the same integral by the core's own estimator, whose noise is measured beside it
      const tiles = tileDifferences(core, card, TILE_px);
      const apart = tiles.filter(({ share, error }) => {
        const tolerance = 2 ** TOLERANCE_STOPS - 1;
        return Math.abs(share) > Math.max(tolerance, STANDARD_ERRORS * error);
      });
      const [whole] = tileDifferences(core, card, WIDTH);
      const wholeTolerance = Math.max(2 ** MEAN_TOLERANCE_STOPS - 1, STANDARD_ERRORS * whole!.error);
      const wrong = apart.length > 0 || Math.abs(whole!.share) > wholeTolerance;
      const picture = wrong ? writeComparison(name, core, card) : '';
      expect(apart, `tiles that differ; see ${picture}`).toEqual([]);
      expect(Math.abs(whole!.share), `the whole frame; see ${picture}`).toBeLessThan(wholeTolerance);
      expect(rendered.lost).toBe(0);
    });
});
