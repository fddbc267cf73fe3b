import { expect, it } from 'vitest';
import type { ThinLens } from '../../../src/core/camera/thin-lens.ts';
import { addSamples, meanRgb, newFramePart, rowsOf, variances } from '../../../src/core/frame/frame-part.ts';
import { newTracer } from '../../../src/core/transport/tracer.ts';
import { isotropic, lampAt, modelOf, opaque, sheetAt } from '../../support/light-models.ts';

/** Looks along z at a grey card in haze. */
const LENS: ThinLens = {
  position_m: [0, 0, 16],
  forward: [0, 0, 1],
  right: [-1, 0, 0],
  up: [0, 1, 0],
  halfWidth: 0.4,
  halfHeight: 0.3,
  pupil_m: 0.01,
  focus_m: 4,
};

it('is the same to the last bit whether rows are sampled together, apart, or in parts of their own', () => {
  const lamp = lampAt([0, 0, 0], [0, 0, 1], isotropic(1000), { shape: 'disc', radius_m: 0.1 }, {});
  const surfaces = [{ reflectance: [0.18, 0.18, 0.18] as const }];
  const parts = [opaque(sheetAt(0, 0, 20, 2, 2))];
  const tracer = newTracer(modelOf({ lamps: [lamp], parts, surfaces, extinction_per_m: 0.01, albedo: 1 }));
  const [width_px, height_px, seed] = [6, 5, 3];

  const together = newFramePart(width_px, height_px, 0, height_px, seed);
  for (let i = 0; i < 2; i++) addSamples(tracer, LENS, together, 1);

  const apart = newFramePart(width_px, height_px, 0, height_px, seed);
  for (let i = 0; i < 2; i++) {
    for (let row = 0; row < height_px; row++) addSamples(tracer, LENS, rowsOf(apart, row, 1), 1);
    apart.samples++;
  }
  expect(together.halves.some((light) => light > 0)).toBe(true);
  expect(apart.halves).toEqual(together.halves);
  expect(variances(apart)).toEqual(variances(together));

  const last = newFramePart(width_px, height_px, 3, 2, seed);
  for (let i = 0; i < 2; i++) {
    for (const row of [3, 4]) addSamples(tracer, LENS, rowsOf(last, row, 1), 1);
    last.samples++;
  }
  expect(meanRgb(last)).toEqual(meanRgb(together).subarray(3 * 3 * width_px));
});
