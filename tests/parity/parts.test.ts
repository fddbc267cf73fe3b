import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { previewScene } from '../../src/preview/renderer/preview-scene.ts';
import { turns } from '../../src/preview/shaders/turns.ts';
import { aspectOf, chosenCamera, lensOf } from '../../src/scene/camera/scene-camera.ts';
import { openedScene } from '../preview/support/scene-models.ts';
import { type NoisyFrame, tileDifferences, writeComparison } from './support/compare-frames.ts';
import { type Frames, openFrames } from './support/frames.ts';
import { type Glsl, openGlsl } from './support/glsl.ts';
import { metersAtMarks } from './support/meters-at-marks.ts';

/** Seconds each on a machine at rest; others may use it too. */
const PATIENCE_ms = 240_000;
const WIDTH = 48;
const TILE_px = 12;
/** Not a whole number of any part's turns. */
const SAMPLES = 20;
const TOLERANCE_STOPS = 0.05;
const STANDARD_ERRORS = 3;
/** derived: of the twelve tiles one is beyond three errors in one run of thirty, two in one of two thousand. */
const TILES_BEYOND = 1;

let frames: Frames;
let glsl: Glsl;
beforeAll(async () => {
  frames = await openFrames();
  glsl = await openGlsl();
});
afterAll(async () => {
  await frames.close();
  await glsl.close();
});

describe('kinds of light drawn by programs of their own', () => {
  it(
    'give meters what they read in the core',
    async () => {
      const { document, model } = await openedScene('night-quay');
      const { differences, lost } = await metersAtMarks(frames, document, model, {
        samples: SAMPLES,
        apart: true,
      });
      for (const { mark, stops, noise_stops } of differences)
        console.info(`parity in parts, ${mark}: ${stops.toFixed(3)} ± ${noise_stops.toFixed(3)} stop`);
      // derived: the same readings by the core
      const apart = differences.filter(
        ({ stops, noise_stops }) =>
          !(Math.abs(stops) <= Math.max(TOLERANCE_STOPS, STANDARD_ERRORS * noise_stops)),
      );
      expect(differences.length).toBeGreaterThan(0);
      expect(apart).toEqual([]);
      expect(lost).toBe(0);
    },
    PATIENCE_ms,
  );

  it(
    'give the frame that one program for all of them gives',
    async () => {
      const { document, model } = await openedScene('night-quay');
      const camera = chosenCamera(document);
      const height = Math.round(WIDTH / aspectOf(camera));
      const view = { lens: lensOf(camera), width: WIDTH, height };
      const frame = async (apart: boolean): Promise<NoisyFrame> => {
        const { rgb, variances } = await frames.render(previewScene(model), view, SAMPLES, apart);
        return { width: WIDTH, height, rgb, variances };
      };
      const one = await frame(false);
      const parts = await frame(true);
      const tiles = tileDifferences(one, parts, TILE_px);
      const beyond = tiles.filter(
        ({ share, error }) => Math.abs(share) > Math.max(2 ** TOLERANCE_STOPS - 1, STANDARD_ERRORS * error),
      );
      const picture = beyond.length > TILES_BEYOND ? writeComparison('parts', one, parts) : '';
      // derived: the same integral by the same estimators, drawn in one go
      expect(tiles.length).toBeGreaterThan(6);
      expect(beyond.length, `tiles that differ; see ${picture}`).toBeLessThanOrEqual(TILES_BEYOND);
    },
    PATIENCE_ms,
  );

  it('stand for as many turns as there are, once in each row of them, now at one and now at another', async () => {
    const [ROWS, EVERY] = [64, 4];
    const BLOCK = 0x1234567;
    const given = Uint32Array.from({ length: 2 * ROWS * EVERY }, (_, i) => (i % 2 === 0 ? BLOCK : i >> 1));
    const { values } = await glsl.evaluate({
      chunks: [turns],
      body: `give(0, standsFor(givenBits(0), givenBits(1), ${EVERY}u));`,
      given,
      givenCount: 2,
      resultCount: 1,
    });
    const which = Array.from({ length: ROWS }, (_, row) => {
      const stands = [...values.subarray(row * EVERY, (row + 1) * EVERY)];
      // derived: the mean over a row is 1
      expect(stands.toSorted()).toEqual([0, 0, 0, EVERY]);
      return stands.indexOf(EVERY);
    });
    // derived: of 64 rows each of four turns is drawn 16 times, ± 3.5
    for (let turn = 0; turn < EVERY; turn++) {
      const times = which.filter((at) => at === turn).length;
      expect(times).toBeGreaterThan(16 - 4 * 3.5);
      expect(times).toBeLessThan(16 + 4 * 3.5);
    }
  });
});
