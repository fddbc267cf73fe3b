import { placementFrom } from '../../../../src/core/geometry/placement.ts';
import type { Part, Shape } from '../../../../src/core/geometry/shape.ts';
import { add, type Vec3 } from '../../../../src/core/math/vec3.ts';

export type Uniform = (low: number, high: number) => number;

export function uniformOf(random: () => number): Uniform {
  return (low, high) => low + (high - low) * random();
}

export function randomPoint(uniform: Uniform, reach: number): Vec3 {
  return [uniform(-reach, reach), uniform(-reach, reach), uniform(-reach, reach)];
}

/** One of each kind in turn, anywhere within `reach`; every other one square to the world, every eighth of glass. */
export function randomParts(uniform: Uniform, count: number, reach: number): Part[] {
  return Array.from({ length: count }, (_, i) => ({
    shape: randomShape(uniform, i % 7, reach, i % 2 === 0),
    substance: i % 8 === 3 ? { kind: 'pane', index: i % 3 } : { kind: 'material', index: 0 },
    owner: i,
  }));
}

export const PANE_DIRECT = new Float64Array([0.5, 0.8, 0.95]);

export function randomShape(uniform: Uniform, kind: number, reach: number, square: boolean): Shape {
  const centre = randomPoint(uniform, reach);
  const turn: Vec3 = square ? [0, 0, 0] : [uniform(0, 360), uniform(0, 360), uniform(0, 360)];
  const placement = placementFrom(centre, turn);
  switch (kind) {
    case 0:
      return {
        kind: 'box',
        placement,
        halfSize_m: [uniform(0.05, 1), uniform(0.05, 1), uniform(0.05, 1)],
      };
    case 1:
      return { kind: 'cylinder', placement, radius_m: uniform(0.05, 0.8), halfHeight_m: uniform(0.05, 1) };
    case 2:
      return { kind: 'sphere', centre_m: centre, radius_m: uniform(0.05, 0.8) };
    case 3:
      return { kind: 'capsule', placement, radius_m: uniform(0.05, 0.5), halfLength_m: uniform(0, 1) };
    case 4:
      return {
        kind: 'panel',
        placement,
        halfSize_m: [uniform(1, 2), uniform(1, 2)],
        topRadius_m: square ? 0 : 0.6,
        openings: [
          { left_m: -0.8, bottom_m: -0.5, right_m: -0.1, top_m: 0.5 },
          { left_m: 0.2, bottom_m: -0.9, right_m: 0.7, top_m: 0.1 },
        ],
      };
    case 5: {
      const from_deg = uniform(-180, 180);
      return {
        kind: 'arc',
        placement,
        radius_m: uniform(0.2, 1),
        halfHeight_m: uniform(0.1, 1),
        from_deg,
        to_deg: from_deg + uniform(20, 370),
      };
    }
    default:
      return {
        kind: 'triangle',
        a_m: add(centre, randomPoint(uniform, 1)),
        b_m: add(centre, randomPoint(uniform, 1)),
        c_m: add(centre, randomPoint(uniform, 1)),
      };
  }
}
