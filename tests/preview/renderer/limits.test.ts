import { describe, expect, it } from 'vitest';
import { rendererLimits } from '../../../src/preview/renderer/limits.ts';
import { hazeBox, isotropic, lampAt, modelOf } from '../../support/light-models.ts';

describe("what the graphics card's frame leaves out", () => {
  it('is nothing in a scene like any other', () => {
    const lamps = [lampAt([0, 3, 0], [0, 0, 0], isotropic(100))];
    expect(rendererLimits(modelOf({ lamps, extinction_per_m: 0.02 }))).toEqual([]);
  });

  it('is haze in more boxes than a ray can keep, and exact places very far out', () => {
    const hazeRegions = Array.from({ length: 9 }, (_, i) => hazeBox([2 * i, 0, 0], [2 * i + 1, 1, 1]));
    const boxed = modelOf({ extinction_per_m: 0.02, hazeRegions });
    expect(rendererLimits(boxed)).toEqual([expect.stringContaining('9 boxes')]);
    const far = modelOf({ lamps: [lampAt([8000, 3, 0], [0, 0, 0], isotropic(100))] });
    expect(rendererLimits(far)).toEqual([expect.stringContaining('8000 m')]);
  });
});
