import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { developed } from '../../src/core/picture/develop.ts';
import { DEFAULT_TONE_RANGE } from '../../src/core/picture/tone-curve.ts';
import { whiteBalance } from '../../src/core/picture/white-balance.ts';
import { previewScene } from '../../src/preview/renderer/preview-scene.ts';
import { diagnosticFrames } from './support/diagnostic-frames.ts';
import { floatsOf } from './support/frame-job.ts';
import { type Frames, openFrames } from './support/frames.ts';

/** Wide enough for a coarse frame to come first. */
const WIDTH = 128;
const HEIGHT = 72;
const ZERO_cd_m2 = 5;
const WHITE_K = 4300;

let frames: Frames;
beforeAll(async () => {
  frames = await openFrames();
});
afterAll(() => frames.close());

describe.each([
  ['by one program', false],
  ['in passes', true],
] as const)('the life of a renderer that draws %s', (_, apart) => {
  it('shows a coarse frame first, the frame as the core develops it, and the same again when its context comes back', async () => {
    const { model, lens } = diagnosticFrames().find(({ name }) => name.includes('penumbra'))!;
    const life = await frames.live(
      previewScene(model),
      { lens, width: WIDTH, height: HEIGHT },
      2,
      {
        zero_cd_m2: ZERO_cd_m2,
        whiteBalance: whiteBalance(WHITE_K),
        range: DEFAULT_TONE_RANGE,
      },
      apart,
    );
    expect(life.shownEmpty).toBe(false);
    expect(life.samplesWhenFirstShown).toBe(0);

    const linear = floatsOf(life.words).map((x) => x / ZERO_cd_m2);
    const { rgb } = developed(
      { width_px: WIDTH, height_px: HEIGHT, rgb: linear },
      { whiteBalance_K: WHITE_K },
    );
    let furthest = 0;
    for (let row = 0; row < HEIGHT; row++)
      for (let column = 0; column < WIDTH; column++)
        for (let c = 0; c < 3; c++) {
          const shown = life.pixels[4 * ((HEIGHT - 1 - row) * WIDTH + column) + c]!;
          furthest = Math.max(furthest, Math.abs(shown - rgb[3 * (row * WIDTH + column) + c]!));
        }
    // derived: single precision may round the last of 256 steps otherwise
    expect(furthest).toBeLessThanOrEqual(1);

    expect(life.whileLost).toEqual({ stage: 'idle', samples: 0, shown: false });
    // A sample depends on seed, pixel and number alone.
    expect(life.sameAgain).toBe(true);
  });
});
