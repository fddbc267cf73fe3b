import { describe, expect, it } from 'vitest';
import { shapeBounds } from '../../../src/core/geometry/bounds.ts';
import { placementFrom, WORLD, worldPoint } from '../../../src/core/geometry/placement.ts';
import type { Shape } from '../../../src/core/geometry/shape.ts';
import { add, normalize, scale, type Vec3 } from '../../../src/core/math/vec3.ts';
import { IDENTITY } from '../../tolerances.ts';
import { randomStream } from './support/random.ts';
import { randomPoint, randomShape, type Uniform, uniformOf } from './support/random-scene.ts';

function boundsOf(shape: Shape): number[] {
  const bounds = new Float64Array(6);
  shapeBounds(shape, bounds, 0);
  return [...bounds];
}

function expectBounds(shape: Shape, expected: readonly number[]): void {
  boundsOf(shape).forEach((b, k) => {
    expect(Math.abs(b - expected[k]!), `${boundsOf(shape)} against ${expected}`).toBeLessThan(IDENTITY);
  });
}

/** A point on the outside of a shape, drawn so that its extremes are reached. */
function surfacePoint(shape: Shape, uniform: Uniform): Vec3 {
  const sign = () => (uniform(0, 1) < 0.5 ? -1 : 1);
  switch (shape.kind) {
    case 'box':
      return worldPoint(shape.placement, [
        sign() * shape.halfSize_m[0],
        sign() * shape.halfSize_m[1],
        sign() * shape.halfSize_m[2],
      ]);
    case 'sphere':
      return add(shape.centre_m, scale(normalize(randomPoint(uniform, 1)), shape.radius_m));
    case 'capsule':
      return add(
        worldPoint(shape.placement, [0, sign() * shape.halfLength_m, 0]),
        scale(normalize(randomPoint(uniform, 1)), shape.radius_m),
      );
    case 'cylinder':
    case 'arc': {
      const [from, to] = shape.kind === 'arc' ? [shape.from_deg, shape.to_deg] : [0, 360];
      const drawn = uniform(0, 1);
      const turn_deg = drawn < 0.1 ? from : drawn > 0.9 ? to : uniform(from, to);
      const a = (turn_deg * Math.PI) / 180;
      return worldPoint(shape.placement, [
        shape.radius_m * Math.cos(a),
        sign() * shape.halfHeight_m,
        shape.radius_m * Math.sin(a),
      ]);
    }
    case 'panel': {
      const [hx, hy] = shape.halfSize_m;
      const r = shape.topRadius_m ?? 0;
      if (uniform(0, 1) < 0.3) return worldPoint(shape.placement, [sign() * hx, -hy, 0]);
      const a = uniform(0, Math.PI / 2);
      return worldPoint(shape.placement, [sign() * (hx - r + r * Math.cos(a)), hy - r + r * Math.sin(a), 0]);
    }
    case 'triangle':
      return [shape.a_m, shape.b_m, shape.c_m][Math.floor(uniform(0, 3))]!;
  }
}

describe('bounds of a shape', () => {
  // derived: by hand.
  it('are those of its corners and curves', () => {
    const diagonal = placementFrom([1, 0, 0], [0, 45, 0]);
    const s = Math.SQRT2;
    expectBounds({ kind: 'box', placement: diagonal, halfSize_m: [1, 2, 1] }, [1 - s, -2, -s, 1 + s, 2, s]);
    expectBounds({ kind: 'sphere', centre_m: [1, 2, 3], radius_m: 0.5 }, [0.5, 1.5, 2.5, 1.5, 2.5, 3.5]);
    // A cylinder lying along z.
    const lying = placementFrom([0, 0, 0], [90, 0, 0]);
    expectBounds(
      { kind: 'cylinder', placement: lying, radius_m: 0.5, halfHeight_m: 2 },
      [-0.5, -0.5, -2, 0.5, 0.5, 2],
    );
    expectBounds(
      { kind: 'capsule', placement: lying, radius_m: 0.5, halfLength_m: 2 },
      [-0.5, -0.5, -2.5, 0.5, 0.5, 2.5],
    );
    expectBounds({ kind: 'panel', placement: WORLD, halfSize_m: [2, 1], openings: [] }, [-2, -1, 0, 2, 1, 0]);
    expectBounds({ kind: 'triangle', a_m: [0, 1, 2], b_m: [3, -1, 0], c_m: [1, 0, 5] }, [0, -1, 0, 3, 1, 5]);
  });

  it('of an arc reach only as far as the part that is there', () => {
    const arc = (from_deg: number, to_deg: number): Shape => ({
      kind: 'arc',
      placement: WORLD,
      radius_m: 2,
      halfHeight_m: 1,
      from_deg,
      to_deg,
    });
    expectBounds(arc(0, 90), [0, -1, 0, 2, 1, 2]);
    expectBounds(arc(-45, 45), [Math.SQRT2, -1, -Math.SQRT2, 2, 1, Math.SQRT2]);
    expectBounds(arc(60, 210), [-2, -1, -1, 1, 1, 2]);
    expectBounds(arc(300, 30), [1, -1, -Math.sqrt(3), 2, 1, 1]);
    expectBounds(arc(0, 360), [-2, -1, -2, 2, 1, 2]);
  });

  it('hold every point of it and are reached: seeded shapes of every kind', () => {
    const uniform = uniformOf(randomStream(808));
    for (let i = 0; i < 70; i++) {
      const shape = randomShape(uniform, i % 7, 3, false);
      const bounds = boundsOf(shape);
      const reached = [...bounds.slice(3), ...bounds.slice(0, 3)];
      for (let n = 0; n < 4000; n++) {
        const point = surfacePoint(shape, uniform);
        for (const k of [0, 1, 2] as const) {
          reached[k] = Math.min(reached[k]!, point[k]);
          reached[k + 3] = Math.max(reached[k + 3]!, point[k]);
        }
      }
      for (const k of [0, 1, 2]) {
        expect(reached[k]! - bounds[k]!).toBeGreaterThan(-1e-12);
        expect(bounds[k + 3]! - reached[k + 3]!).toBeGreaterThan(-1e-12);
        // 4 000 random points come within a few millimetres of the extremes of a metre-sized curve.
        expect(reached[k]! - bounds[k]!, shape.kind).toBeLessThan(0.01);
        expect(bounds[k + 3]! - reached[k + 3]!, shape.kind).toBeLessThan(0.01);
      }
    }
  });
});
