import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { placementFrom } from '../../../src/core/geometry/placement.ts';
import {
  type HazeRegion,
  hazeAlong,
  hazedUpTo_m,
  isHazed,
  newHazeStretches,
  placeInHaze_m,
} from '../../../src/core/haze/haze-region.ts';
import { dot, normalize, subtract, type Vec3 } from '../../../src/core/math/vec3.ts';

const number = (min: number, max: number) => fc.double({ min, max, noNaN: true });
const point = fc.tuple(number(-6, 6), number(-6, 6), number(-6, 6));
const region = fc
  .tuple(
    point,
    fc.tuple(number(-180, 180), number(-90, 90), number(-180, 180)),
    fc.tuple(number(0.2, 4), number(0.2, 4), number(0.2, 4)),
  )
  .map(([at, rotation, half]): HazeRegion => ({ placement: placementFrom(at, rotation), halfSize_m: half }));
const direction = point.filter((d) => Math.hypot(...d) > 0.1).map((d) => normalize(d));

function holds({ placement, halfSize_m }: HazeRegion, p: Vec3): boolean {
  const from = subtract(p, placement.origin_m);
  return [placement.x, placement.y, placement.z].every(
    (axis, i) => Math.abs(dot(from, axis)) <= halfSize_m[i]!,
  );
}

describe('where a ray is in haze', () => {
  it('is found as by asking every point of it, overlaps counted once', () => {
    const found = newHazeStretches();
    const D = 15;
    const steps = 1000;
    fc.assert(
      fc.property(fc.array(region, { minLength: 1, maxLength: 6 }), point, direction, (regions, o, d) => {
        hazeAlong(regions, ...o, ...d, D, found);
        let length = 0;
        let wrong = 0;
        for (let i = 0; i < steps; i++) {
          const t = ((i + 0.5) * D) / steps;
          const inside = regions.some((r) => holds(r, [o[0] + t * d[0], o[1] + t * d[1], o[2] + t * d[2]]));
          if (inside) length += D / steps;
          const edge = found.ends.subarray(0, 2 * found.count).some((end) => Math.abs(end - t) < 1e-6);
          if (!edge && isHazed(found, t) !== inside) wrong++;
        }
        expect(wrong).toBe(0);
        expect(Math.abs(found.length_m - length)).toBeLessThan((12 * D) / steps);
        expect(hazedUpTo_m(found, D)).toBeCloseTo(found.length_m, 9);
        for (let i = 1; i < found.count; i++)
          expect(found.ends[2 * i]!).toBeGreaterThan(found.ends[2 * i - 1]!);
      }),
      { seed: 21, numRuns: 120 },
    );
  });

  it('gives the place after so much haze, and back', () => {
    const found = newHazeStretches();
    fc.assert(
      fc.property(
        fc.array(region, { minLength: 1, maxLength: 6 }),
        point,
        direction,
        number(0.01, 0.99),
        (regions, o, d, u) => {
          hazeAlong(regions, ...o, ...d, 15, found);
          if (found.count === 0) return;
          const t = placeInHaze_m(found, u * found.length_m);
          expect(hazedUpTo_m(found, t)).toBeCloseTo(u * found.length_m, 9);
        },
      ),
      { seed: 22, numRuns: 300 },
    );
  });

  it('takes a ray along a wall of the box and one that never meets it', () => {
    const found = newHazeStretches();
    const box: HazeRegion = { placement: placementFrom([0, 0, 0]), halfSize_m: [1, 1, 1] };
    hazeAlong([box], -3, 1, 0, 1, 0, 0, 10, found);
    expect(found.length_m).toBeCloseTo(2, 12);
    hazeAlong([box], -3, 1.001, 0, 1, 0, 0, 10, found);
    expect(found.count).toBe(0);
    hazeAlong([box], 0, 0, 0, 0, 0, 1, 0.5, found);
    expect([found.count, found.length_m]).toEqual([1, 0.5]);
  });
});
