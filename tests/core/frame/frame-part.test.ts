import { readFileSync } from 'node:fs';
import { expect, it } from 'vitest';
import { addSamples, meanRgb, newFramePart, rowsOf, variances } from '../../../src/core/frame/frame-part.ts';
import { newTracer } from '../../../src/core/transport/tracer.ts';
import { chosenCamera, lensOf } from '../../../src/scene/camera/scene-camera.ts';
import { compileScene } from '../../../src/scene/compile/compile-scene.ts';
import { openScene } from '../../../src/scene/file/open-scene.ts';

it('is the same to the last bit whether rows are sampled together, apart, or in parts of their own', () => {
  const { document } = openScene(readFileSync('scenes/test-room.json', 'utf8'));
  const tracer = newTracer(compileScene(document!, { photometry: new Map(), meshes: new Map() }));
  const lens = lensOf(chosenCamera(document!, undefined));
  const [width_px, height_px, seed] = [6, 5, 3];

  const together = newFramePart(width_px, height_px, 0, height_px, seed);
  for (let i = 0; i < 2; i++) addSamples(tracer, lens, together, 1);

  const apart = newFramePart(width_px, height_px, 0, height_px, seed);
  for (let i = 0; i < 2; i++) {
    for (let row = 0; row < height_px; row++) addSamples(tracer, lens, rowsOf(apart, row, 1), 1);
    apart.samples++;
  }
  expect(apart.halves).toEqual(together.halves);
  expect(variances(apart)).toEqual(variances(together));

  const last = newFramePart(width_px, height_px, 3, 2, seed);
  for (let i = 0; i < 2; i++) {
    for (const row of [3, 4]) addSamples(tracer, lens, rowsOf(last, row, 1), 1);
    last.samples++;
  }
  expect(meanRgb(last)).toEqual(meanRgb(together).subarray(3 * 3 * width_px));
});
