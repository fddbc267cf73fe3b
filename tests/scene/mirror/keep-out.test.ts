import { describe, expect, it } from 'vitest';
import { grownBy, keepOutAt, keepOutsOf } from '../../../src/scene/mirror/keep-out.ts';
import { area_m2, regionHolds } from '../../../src/scene/mirror/plan.ts';
import { rakedSide } from '../../support/raked-side.ts';

const AREAS = keepOutsOf(
  rakedSide({
    site: {
      keepOut: [
        {
          id: 'edge',
          name: 'Quay edge',
          outline_m: [
            [0, 0],
            [4, 0],
            [4, 1],
            [0, 1],
          ],
        },
        {
          id: 'hatch',
          outline_m: [
            [6, 0],
            [7, 0],
            [7, 1],
          ],
        },
      ],
    },
  }),
);

describe('areas to keep out of', () => {
  it('have a name, if only their id', () => {
    expect(AREAS.map(({ name }) => name)).toEqual(['Quay edge', 'hatch']);
    expect(keepOutsOf(rakedSide())).toEqual([]);
  });

  it('are entered by a foot that touches them', () => {
    expect(keepOutAt(AREAS, 2, 0.5, 0)?.id).toBe('edge');
    expect(keepOutAt(AREAS, 2, 1.5, 0)).toBeUndefined();
    expect(keepOutAt(AREAS, 2, 1.5, 0.4)).toBeUndefined();
    expect(keepOutAt(AREAS, 2, 1.5, 0.6)?.id).toBe('edge');
    expect(keepOutAt(AREAS, 6.7, 0.3, 0)?.id).toBe('hatch');
    expect(keepOutAt(AREAS, 6.2, 0.7, 0)).toBeUndefined();
  });

  it('are as much wider as the foot is', () => {
    const grown = grownBy(AREAS[0]!, 0.6);
    for (const [x, z] of [
      [2, 0.5],
      [2, 1.59],
      [-0.59, 0.5],
      [4.4, 1.4],
      [4.5, 1.5],
      [2, 1.61],
    ] as const)
      expect(regionHolds(grown, x, z)).toBe(keepOutAt([AREAS[0]!], x, z, 0.6) !== undefined);
    expect(area_m2(grownBy(AREAS[0]!, 0))).toBeCloseTo(4, 9);
  });
});
