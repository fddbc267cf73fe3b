import { describe, expect, it } from 'vitest';
import {
  area_m2,
  difference,
  grown,
  intersection,
  nearestOnEdge,
  type PlanRing,
  rectangle,
  regionHolds,
  stretchesAlong,
  toEdge_m,
  union,
} from '../../../src/scene/mirror/plan.ts';

/** 4 × 3 m with a hole of 1 × 1 m in its middle. */
const WITH_HOLE = difference(rectangle([0, 0], [4, 3]), rectangle([1.5, 1], [2.5, 2]));
/** An L, its inner corner at (1, 1). */
const L: PlanRing = [
  [0, 0],
  [3, 0],
  [3, 1],
  [1, 1],
  [1, 3],
  [0, 3],
];

describe('a region on plan', () => {
  it('holds what is inside it and not what is in its holes', () => {
    expect(regionHolds(WITH_HOLE, 0.5, 1.5)).toBe(true);
    expect(regionHolds(WITH_HOLE, 2, 1.5)).toBe(false);
    expect(regionHolds(WITH_HOLE, 5, 1.5)).toBe(false);
    expect(regionHolds([[L]], 0.5, 2.5)).toBe(true);
    expect(regionHolds([[L]], 2, 2)).toBe(false);
  });

  it('has the area of its outlines less its holes', () => {
    // Derived: 4·3 − 1.
    expect(area_m2(WITH_HOLE)).toBeCloseTo(11, 9);
    expect(area_m2([])).toBe(0);
  });

  it('is joined, cut and taken from', () => {
    const [a, b] = [rectangle([0, 0], [2, 2]), rectangle([1, 1], [3, 3])];
    // Derived: 4 + 4 − 1, 1, 4 − 1.
    expect(area_m2(union(a, b))).toBeCloseTo(7, 9);
    expect(area_m2(intersection(a, b))).toBeCloseTo(1, 9);
    expect(area_m2(difference(a, b))).toBeCloseTo(3, 9);
    expect(intersection(a, [])).toEqual([]);
    expect(difference(a, [])).toBe(a);
  });

  it('tells how far its edge is and where', () => {
    expect(toEdge_m(WITH_HOLE, 0.5, 1.5)).toBeCloseTo(0.5, 9);
    expect(toEdge_m(WITH_HOLE, 2, 1.4)).toBeCloseTo(0.4, 9);
    expect(toEdge_m(rectangle([0, 0], [1, 1]), 4, 5)).toBeCloseTo(5, 9);
    expect(toEdge_m([], 0, 0)).toBe(Infinity);
    expect(nearestOnEdge(rectangle([0, 0], [1, 1]), 4, 0.25)).toEqual([1, 0.25]);
  });

  it('is met by a ray in stretches', () => {
    expect(stretchesAlong(WITH_HOLE, [-1, 1.5], [1, 0])).toEqual([
      { from_m: 1, to_m: 2.5 },
      { from_m: 3.5, to_m: 5 },
    ]);
    expect(stretchesAlong(WITH_HOLE, [0.5, 1.5], [-1, 0])).toEqual([{ from_m: 0, to_m: 0.5 }]);
    expect(stretchesAlong(WITH_HOLE, [5, 1.5], [1, 0])).toEqual([]);
  });
});

describe('an outline made wider', () => {
  it.each<[string, PlanRing, number, number]>([
    // Derived (Steiner): area + perimeter·r + π·r² for a convex outline.
    ['a rectangle', rectangle([0, 0], [2, 1])[0]![0]!, 0.5, 2 + 6 * 0.5 + Math.PI * 0.25],
    [
      'a triangle',
      [
        [0, 0],
        [3, 0],
        [0, 4],
      ],
      1,
      6 + 12 + Math.PI,
    ],
    // Derived: five quarter discs, and the square where the bands of the inner corner's sides overlap counts once.
    ['an L', L, 0.5, 5 + 12 * 0.5 + (5 / 4) * Math.PI * 0.25 - 0.25],
  ])('%s', (_, outline, by, expected) => {
    // Round corners are inscribed 64-gons: 0.16 % of a disc less, and an L has five quarters of one.
    expect(Math.abs(area_m2(grown(outline, by)) - expected)).toBeLessThan(0.0025 * Math.PI * by * by + 1e-6);
  });

  it('by nothing is itself', () => {
    expect(area_m2(grown(L, 0))).toBeCloseTo(5, 9);
  });
});
