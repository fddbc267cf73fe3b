import { fileURLToPath } from 'node:url';
import type { Browser, Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { developed } from '../../src/core/picture/develop.ts';
import { luminanceOfRgb } from '../../src/core/picture/linear-rgb.ts';
import { previewScene } from '../../src/preview/renderer/preview-scene.ts';
import { DEFAULT_WHITE_BALANCE_K, lensOf } from '../../src/scene/camera/scene-camera.ts';
import type { Camera } from '../../src/scene/schema/camera.ts';
import { launchBrowser } from '../browser/support/open-page.ts';
import { readPng } from '../paperwork/picture-files/png-reader.ts';
import { opened, smallScene } from '../support/scenes.ts';
import { diagnosticFrames } from './support/diagnostic-frames.ts';
import { floatsOf, jobOf } from './support/frame-job.ts';
import { openBarePage } from './support/page-bundle.ts';
import type { ExportJob, ExportOutcome } from './support/page-export.ts';
import type { FrameOutcome } from './support/page-frame.ts';

/** 3 × 2 tiles, the last of each row and column smaller. */
const TILE_px = 16;
const WIDTH = 40;
const HEIGHT = 27;
const SAMPLES = 8;
/** Every export builds its shader anew. */
const BUILDS_SHADERS_ms = 180_000;

let browser: Browser;
let page: Page;
let complaints: string[];
let inOnePiece: Promise<FrameOutcome>;
beforeAll(async () => {
  browser = await launchBrowser();
  const entry = fileURLToPath(new URL('support/page-export.ts', import.meta.url));
  ({ page, complaints } = await openBarePage(browser, entry));
  inOnePiece = page.evaluate((given) => window.keyfallFrame(given), frame);
  await inOnePiece;
});
afterAll(() => browser.close());

/** Sees the floor and both boxes of the diagnostic scene. */
const CAMERA: Camera = {
  id: 'a',
  position_m: [0, 1.4, 4.5],
  look_m: [0, 0.6, 2],
  sensor_mm: [36, 24],
  focal_mm: 75,
  fNumber: 1,
  shutter_s: 1 / 50,
  iso: 100,
};
/** derived: K·N²/(t·S) = 12.5·50/100 */
const ZERO_cd_m2 = 6.25;
const lens = lensOf(CAMERA);
const { model } = diagnosticFrames().find(({ name }) => name.includes('wide open'))!;
const frame = jobOf(previewScene(model), { lens, width: WIDTH, height: HEIGHT }, SAMPLES);

async function exported(job: Partial<ExportJob>): Promise<ExportOutcome> {
  const whole: ExportJob = { frame, until: { samples: SAMPLES }, tile_px: TILE_px, ...job };
  const outcome = await page.evaluate((given) => window.keyfallExport(given), whole);
  expect(complaints).toEqual([]);
  return outcome;
}

/** Tile by tile: a pixel's variance is the mean of the 5 × 5 around it; error over luminance; the middle one of all. */
function medianError(rgb: Float32Array, variances: Float32Array): number {
  const errors: number[] = [];
  for (let y = 0; y < HEIGHT; y++)
    for (let x = 0; x < WIDTH; x++) {
      let sum = 0;
      let count = 0;
      for (let v = y - 2; v <= y + 2; v++)
        for (let u = x - 2; u <= x + 2; u++) {
          const inFrame = u >= 0 && v >= 0 && u < WIDTH && v < HEIGHT;
          if (!inFrame || tileOf(u) !== tileOf(x) || tileOf(v) !== tileOf(y)) continue;
          sum += variances[v * WIDTH + u]!;
          count++;
        }
      const at = 3 * (y * WIDTH + x);
      const Y = luminanceOfRgb([rgb[at]!, rgb[at + 1]!, rgb[at + 2]!]);
      if (Y > 0) errors.push(Math.sqrt(sum / count) / Y);
    }
  return errors.toSorted((a, b) => a - b)[errors.length >> 1]!;
}

const tileOf = (place: number) => Math.floor(place / TILE_px);

describe('a picture that is exported', () => {
  it(
    'equals, pixel for pixel, the frame in one piece, even when the context is lost on the way',
    async () => {
      const { words, bands, progress, picture, stopped, contextGivenBack } = await exported({
        loseAfterRows: TILE_px,
      });
      expect(stopped).toBe(null);
      expect(bands).toEqual([TILE_px, HEIGHT - TILE_px]);
      const whole = await inOnePiece;
      const rgb = floatsOf(words);
      // derived: a sample depends on seed, pixel and number alone
      expect([...rgb]).toEqual([...floatsOf(whole.words)]);
      expect(Math.max(...rgb)).toBeGreaterThan(0);

      expect(picture!.samples).toEqual({ least: SAMPLES, most: SAMPLES });
      // derived: the classes of the tally are 2.2 % wide
      const expected = medianError(rgb, floatsOf(whole.varianceWords));
      expect(Math.abs(picture!.noise! / expected - 1)).toBeLessThan(0.022);
      expect(progress).toEqual(progress.toSorted((a, b) => a - b));
      expect(progress[0]).toBeLessThan(1 / 6);
      expect(progress.at(-1)).toBe(1);
      expect(contextGivenBack).toBe(true);
    },
    BUILDS_SHADERS_ms,
  );

  it(
    'has as little noise as was asked for',
    async () => {
      const { picture } = await exported({ until: { noise: 0.2 } });
      expect(picture!.noise).toBeLessThan(0.2);
      expect(picture!.samples.least).toBeGreaterThanOrEqual(12);
    },
    BUILDS_SHADERS_ms,
  );

  it(
    'is developed into a PNG as the core develops the frame',
    async () => {
      const document = opened(smallScene());
      const order = {
        document,
        setup: null,
        camera: CAMERA,
        kind: { file: 'png', look: 'picture' } as const,
        width_px: WIDTH,
        height_px: HEIGHT,
        until: { samples: SAMPLES },
        seed: 1,
      };
      const bytes = await page.evaluate(([given, of]) => window.keyfallExportFile(given, of), [
        order,
        frame,
      ] as const);
      const read = readPng(Uint8Array.from(bytes));
      const relative = floatsOf((await inOnePiece).words).map((x) => x / ZERO_cd_m2);
      const { rgb } = developed(
        { width_px: WIDTH, height_px: HEIGHT, rgb: relative },
        { whiteBalance_K: DEFAULT_WHITE_BALANCE_K },
      );
      expect(read.rgb).toEqual([...rgb]);
      expect(read.texts.get('Samples')).toContain(
        `${SAMPLES} a pixel, seed 1, noise left in, median error 0.`,
      );
    },
    BUILDS_SHADERS_ms,
  );

  it(
    'stops when it is told to, and gives the card back',
    async () => {
      const { bands, picture, stopped, contextGivenBack, drawsAfterwards } = await exported({
        cancelAfterRows: 1,
      });
      expect([bands, picture, stopped]).toEqual([[16], null, 'enough']);
      expect([contextGivenBack, drawsAfterwards]).toEqual([true, 0]);
    },
    BUILDS_SHADERS_ms,
  );

  it('is refused without samples, noise or size', async () => {
    const refusals = [
      await exported({ until: { samples: 0 } }),
      await exported({ until: { noise: 0 } }),
      await exported({ tile_px: 0.5 }),
    ].map(({ stopped }) => stopped);
    expect(refusals).toEqual([
      '0 samples a pixel; it must be a whole number of at least 1',
      'a median error of 0 is no aim; it must be above 0',
      'tiles of 0.5 px; it must be a whole number of at least 1',
    ]);
  });
});
