import { describe, expect, it } from 'vitest';
import {
  placementFrom,
  placementWithin,
  worldDirection,
  worldPoint,
} from '../../../src/core/geometry/placement.ts';
import { cross, distance, dot, type Vec3 } from '../../../src/core/math/vec3.ts';
import { IDENTITY } from '../../tolerances.ts';

describe('placement', () => {
  // derived: rotations of the axes about one another, by the right-hand rule.
  it.each([
    [
      [0, 90, 0],
      [0, 0, 1],
      [1, 0, 0],
    ],
    [
      [90, 0, 0],
      [0, 1, 0],
      [0, 0, 1],
    ],
    [
      [0, 0, 90],
      [1, 0, 0],
      [0, 1, 0],
    ],
    // Tilt is about the axis that heading has already turned: +z heads to +x, then tilts down.
    [
      [90, 90, 0],
      [0, 0, 1],
      [0, -1, 0],
    ],
    // Bank comes last, about the body's own length: up banks to the turned −x, which heading 90 has put at +z.
    [
      [0, 90, 90],
      [0, 1, 0],
      [0, 0, 1],
    ],
  ] as const)('rotation %j takes %j to %j', (rotation_deg, local, world) => {
    expect(distance(worldDirection(placementFrom([5, 6, 7], rotation_deg), local), world)).toBeLessThan(
      IDENTITY,
    );
  });

  it('keeps axes square, unit and right-handed, one within another too', () => {
    const outer = placementFrom([1, 2, 3], [10, 200, -35]);
    const placement = placementWithin(outer, placementFrom([4, 5, 6], [-70, 15, 120]));
    const { x, y, z } = placement;
    for (const axis of [x, y, z]) expect(Math.abs(dot(axis, axis) - 1)).toBeLessThan(IDENTITY);
    expect(distance(cross(x, y), z)).toBeLessThan(IDENTITY);
  });

  it('of one within another is one after the other', () => {
    const [outer, inner] = [
      placementFrom([1, 2, 3], [10, 200, -35]),
      placementFrom([4, 5, 6], [-70, 15, 120]),
    ];
    const p: Vec3 = [0.3, -2, 0.9];
    const direct = worldPoint(placementWithin(outer, inner), p);
    expect(distance(direct, worldPoint(outer, worldPoint(inner, p)))).toBeLessThan(10 * IDENTITY);
  });
});
