import { describe, expect, it } from 'vitest';
import { buildGeometry } from '../../../src/core/geometry/geometry.ts';
import { placementFrom } from '../../../src/core/geometry/placement.ts';
import type { Shape } from '../../../src/core/geometry/shape.ts';
import { solidAround } from '../../../src/core/geometry/solid-around.ts';

const geometryOf = (shapes: readonly Shape[]) =>
  buildGeometry(shapes.map((shape) => ({ shape, substance: { kind: 'material', index: 0 }, owner: 0 })));

describe('the solid around a point', () => {
  const lying = placementFrom([0, 0, 0], [0, 0, 90]);
  const geometry = geometryOf([
    { kind: 'box', placement: placementFrom([0, -1, 0]), halfSize_m: [20, 1, 20] },
    { kind: 'sphere', centre_m: [0, 2, 0], radius_m: 1 },
    { kind: 'cylinder', placement: placementFrom([5, 2, 0], [90, 0, 0]), radius_m: 1, halfHeight_m: 2 },
    { kind: 'capsule', placement: { ...lying, origin_m: [-5, 2, 0] }, radius_m: 0.5, halfLength_m: 1 },
    { kind: 'panel', placement: placementFrom([0, 2, 0]), halfSize_m: [3, 3], openings: [] },
    { kind: 'sphere', centre_m: [0, 2, 0], radius_m: 0.5 },
  ]);

  // derived: distances by hand.
  it.each([
    ['in the ground', [3, -0.01, 4], 0],
    ['on the ground', [3, 0, 4], -1],
    ['in two balls: the first listed', [0, 2.1, 0], 1],
    ['just inside a ball', [0, 2.999, 0], 1],
    ['just outside it', [0, 3.001, 0], -1],
    ['in a lying cylinder', [5, 2.9, 1.9], 2],
    ['past its cap', [5, 2.9, 2.1], -1],
    ['in the round end of a capsule', [-6.4, 2, 0], 3],
    ['beside the round end', [-6.4, 2.4, 0], -1],
    ['beside the sheet', [2, 2, 0], -1],
    ['far away', [0, 90, 0], -1],
    ['nowhere', [Number.NaN, 0, 0], -1],
  ] as const)('%s', (_, point_m, expected) => {
    expect(solidAround(geometry, point_m)).toBe(expected);
  });
});
