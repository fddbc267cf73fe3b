import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { luminanceOfRgb } from '../../src/core/picture/linear-rgb.ts';
import { previewScene } from '../../src/preview/renderer/preview-scene.ts';
import { aspectOf, chosenCamera, lensOf } from '../../src/scene/camera/scene-camera.ts';
import { findSceneGlints } from '../../src/scene/mirror/find-scene-glints.ts';
import { openedScene } from '../preview/support/scene-models.ts';
import { type Frames, openFrames } from './support/frames.ts';

const PATIENCE_ms = 120_000;
const WIDTH = 1920;
/** A window of the picture round each glint. */
const WINDOW_px = 65;
const SAMPLES = 16;
/** Lamps that are mirrored only in part have the middle of what is left elsewhere. */
const LEAST_FACE_SHARE = 0.9;

let frames: Frames;
beforeAll(async () => {
  frames = await openFrames();
});
afterAll(() => frames.close());

describe("a lamp's mirror image in the graphics card's frame", () => {
  it(
    'stands where the glints say, to a pixel, and is as bright',
    async () => {
      const { document, model } = await openedScene('night-quay');
      const camera = chosenCamera(document);
      const height = Math.round(WIDTH / aspectOf(camera));
      // In focus everywhere: a blurred image has no place to a pixel.
      const lens = { ...lensOf(camera), pupil_m: 0 };
      // In rough or wet ground an image is a broad sheen, of which nothing can be told to a pixel.
      const { glints: all, clip_stops } = findSceneGlints(document, model);
      const glints = all.filter(
        ({ kind, inFrame, approximate, faceShare, stops }) =>
          kind === 'image' && inFrame && !approximate && faceShare >= LEAST_FACE_SHARE && stops > clip_stops,
      );
      expect(glints.length).toBeGreaterThan(0);
      const scene = previewScene(model);
      for (const { lampName, solidName, pixel, luminance_cd_m2, uncertainty_stops } of glints) {
        const [atX, atY] = [pixel![0] * WIDTH, pixel![1] * height];
        const x = Math.floor(atX) - (WINDOW_px >> 1);
        const y = Math.floor(atY) - (WINDOW_px >> 1);
        const { rgb } = await frames.render(
          scene,
          {
            lens,
            width: WINDOW_px,
            height: WINDOW_px,
            part: { wholeWidth: WIDTH, wholeHeight: height, x, y },
          },
          SAMPLES,
        );
        const Y = Array.from({ length: WINDOW_px ** 2 }, (_, i) =>
          luminanceOfRgb([rgb[3 * i]!, rgb[3 * i + 1]!, rgb[3 * i + 2]!]),
        );
        // What is at least half as bright as the glint is its image.
        const image = [...Y.keys()].filter((i) => Y[i]! > luminance_cd_m2 / 2);
        const mean = (of: (i: number) => number) => image.reduce((sum, i) => sum + of(i), 0) / image.length;
        const centre = [
          x + mean((i) => (i % WINDOW_px) + 0.5),
          y + mean((i) => Math.floor(i / WINDOW_px) + 0.5),
        ];
        const brightness_stops = Math.log2(mean((i) => Y[i]!) / luminance_cd_m2);
        console.info(
          `parity glint of ${lampName} in ${solidName}: ${image.length} pixels, ` +
            `${(centre[0]! - atX).toFixed(2)} across and ${(centre[1]! - atY).toFixed(2)} down from where it is said, ` +
            `${brightness_stops.toFixed(2)} stop brighter than said`,
        );
        // derived: the core's mirror geometry, worked out without the frame
        expect(image.length).toBeGreaterThan(4);
        expect(Math.abs(centre[0]! - atX)).toBeLessThan(1);
        expect(Math.abs(centre[1]! - atY)).toBeLessThan(1);
        expect(Math.abs(brightness_stops)).toBeLessThan(uncertainty_stops);
      }
    },
    PATIENCE_ms,
  );
});
