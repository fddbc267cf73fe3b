import { Document, WebIO } from '@gltf-transform/core';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { addSamples, meanRgb, newFramePart, variances } from '../../src/core/frame/frame-part.ts';
import type { LightModel } from '../../src/core/light-model/light-model.ts';
import { newTracer } from '../../src/core/transport/tracer.ts';
import { previewScene } from '../../src/preview/renderer/preview-scene.ts';
import { chosenCamera, lensOf } from '../../src/scene/camera/scene-camera.ts';
import { compileScene } from '../../src/scene/compile/compile-scene.ts';
import { openRaw } from '../../src/scene/file/open-scene.ts';
import { readSceneFiles } from '../../src/scene/files/scene-files.ts';
import type { SceneDocument } from '../../src/scene/schema/document.ts';
import { largeScene } from '../bench/large-scene.ts';
import { openedScene } from '../preview/support/scene-models.ts';
import { type NoisyFrame, tileDifferences, writeComparison } from './support/compare-frames.ts';
import { type Frames, openFrames } from './support/frames.ts';

const PATIENCE_ms = 240_000;
const WIDTH = 32;
const HEIGHT = 18;
const TOLERANCE_STOPS = 0.05;
const STANDARD_ERRORS = 3;

let frames: Frames;
beforeAll(async () => {
  frames = await openFrames();
});
afterAll(() => frames.close());

describe("the graphics card's frame", () => {
  it(
    'is that of the core with 64 lamps, 2 000 crates and a glTF mesh of a hundred thousand triangles',
    async () => {
      const scene = largeScene(64, 2000, 0);
      const document = opened({
        ...scene,
        solids: [
          ...(scene.solids ?? []),
          { id: 'ball', shape: 'mesh', file: 'ball.glb', position_m: [0, 4, 18], material: 'timber-light' },
        ],
      });
      const bytes = await ball(224);
      const { files, problems } = await readSceneFiles(document, async () => bytes);
      expect(problems).toEqual([]);
      const model = compileScene(document, files);
      // derived: 2 · 224² triangles, less the two rows of them that have no area at the poles
      expect(model.geometry.shapeCount).toBeGreaterThan(100_000);
      await expectFrameOfCore('large', document, model, 16);
    },
    PATIENCE_ms,
  );

  it.each([
    ['inside a wall', [0, 1.5, 0]],
    ['in the face of a wall', [0, 1.5, 0.25]],
    ['in the ground', [0, 0, 3]],
  ] as const)(
    'is that of the core from %s',
    async (_, position_m) => {
      const document = opened({
        keyfall: 1,
        title: 'Wall',
        solids: [
          {
            id: 'wall',
            shape: 'box',
            size_m: [4, 3, 0.5],
            position_m: [0, 1.5, 0],
            material: 'timber-light',
          },
          {
            id: 'ground',
            shape: 'box',
            size_m: [20, 1, 20],
            position_m: [0, -0.5, 0],
            material: 'timber-light',
          },
        ],
        lamps: [{ id: 'lamp', head: 'discharge-400', position_m: [3, 3, 5], aim_m: [0, 1, 0] }],
        cameras: [
          {
            id: 'a',
            position_m,
            look_m: [0, 1.2, 8],
            sensor_mm: [36, 20.25],
            focal_mm: 24,
            fNumber: 4,
            shutter_s: 0.02,
            iso: 800,
          },
        ],
      });
      await expectFrameOfCore(String(position_m), document, compileScene(document, NO_FILES), 16);
    },
    PATIENCE_ms,
  );

  it('may be a single pixel, or a row or a column of them', async () => {
    const { document, model } = await openedScene('lamp-and-card');
    const scene = previewScene(model);
    const lens = lensOf(chosenCamera(document));
    for (const [width, height] of [
      [1, 1],
      [300, 1],
      [1, 300],
    ] as const) {
      // So many samples that a single pixel's find the card.
      const { rgb, lost } = await frames.render(scene, { lens, width, height }, width === height ? 256 : 4);
      expect(rgb).toHaveLength(3 * width * height);
      expect(rgb.every((x) => Number.isFinite(x))).toBe(true);
      expect(rgb.some((x) => x > 0)).toBe(true);
      expect(lost).toBe(0);
    }
  });

  it('is refused where it is larger than the driver draws, with what to do', async () => {
    const { document, model } = await openedScene('lamp-and-card');
    const scene = previewScene(model);
    const lens = lensOf(chosenCamera(document));
    await expect(frames.render(scene, { lens, width: 100_000, height: 2 }, 4)).rejects.toThrow(
      /smaller frame/,
    );
    // What was refused leaves the renderer as good as it was.
    const { rgb } = await frames.render(scene, { lens, width: 4, height: 4 }, 4);
    expect(rgb.some((x) => x > 0)).toBe(true);
  });
});

const NO_FILES = { photometry: new Map(), meshes: new Map() };

async function expectFrameOfCore(
  name: string,
  document: SceneDocument,
  model: LightModel,
  samples: number,
): Promise<void> {
  const lens = lensOf(chosenCamera(document));
  const {
    rgb,
    variances: ofCard,
    lost,
  } = await frames.render(previewScene(model), { lens, width: WIDTH, height: HEIGHT }, samples);
  const part = newFramePart(WIDTH, HEIGHT, 0, HEIGHT, 7);
  addSamples(newTracer(model), lens, part, samples / 4);
  const core: NoisyFrame = { width: WIDTH, height: HEIGHT, rgb: meanRgb(part), variances: variances(part) };
  const card: NoisyFrame = { ...core, rgb, variances: ofCard };
  // derived: the same integral by the core's own estimator, whose noise is measured beside it; dark where that is dark
  const [whole] = tileDifferences(core, card, WIDTH);
  const share = whole ? Math.abs(whole.share) : Number.NaN;
  const bound = Math.max(2 ** TOLERANCE_STOPS - 1, STANDARD_ERRORS * (whole?.error ?? 0));
  const picture = share > bound ? writeComparison(name, core, card) : '';
  if (whole) expect(share, `the whole frame; see ${picture}`).toBeLessThanOrEqual(bound);
  else expect(sum(rgb)).toBeCloseTo(sum(core.rgb), 6);
  expect(lost).toBe(0);
}

function sum(numbers: ArrayLike<number>): number {
  return Array.from(numbers).reduce((total, x) => total + x, 0);
}

function opened(raw: unknown): SceneDocument {
  const { document, problems } = openRaw(raw);
  if (!document) throw new Error(problems.map(({ path }) => path).join());
  return document;
}

/** A closed ball with bumps, of 2·rings² triangles. */
async function ball(rings: number): Promise<Uint8Array> {
  const positions = new Float32Array(3 * (rings + 1) ** 2);
  for (let i = 0; i <= rings; i++)
    for (let j = 0; j <= rings; j++) {
      const theta = (Math.PI * i) / rings;
      const phi = (2 * Math.PI * j) / rings;
      const r = 2 + 0.1 * Math.sin(20 * theta) * Math.sin(16 * phi);
      const [x, y, z] = [Math.sin(theta) * Math.cos(phi), Math.cos(theta), Math.sin(theta) * Math.sin(phi)];
      positions.set([r * x, r * y, r * z], 3 * (i * (rings + 1) + j));
    }
  const indices: number[] = [];
  for (let i = 0; i < rings; i++)
    for (let j = 0; j < rings; j++) {
      const at = i * (rings + 1) + j;
      indices.push(at, at + 1, at + rings + 2, at, at + rings + 2, at + rings + 1);
    }
  const document = new Document();
  const buffer = document.createBuffer();
  const accessor = (type: 'VEC3' | 'SCALAR', array: Float32Array<ArrayBuffer> | Uint32Array<ArrayBuffer>) =>
    document.createAccessor().setType(type).setArray(array).setBuffer(buffer);
  const primitive = document
    .createPrimitive()
    .setAttribute('POSITION', accessor('VEC3', positions))
    .setIndices(accessor('SCALAR', Uint32Array.from(indices)));
  const node = document.createNode().setMesh(document.createMesh().addPrimitive(primitive));
  document.getRoot().setDefaultScene(document.createScene().addChild(node));
  return new WebIO().writeBinary(document);
}
