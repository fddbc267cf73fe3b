import type { Geometry } from '../../../src/core/geometry/geometry.ts';
import { add, cross, length, normalize, scale, type Vec3 } from '../../../src/core/math/vec3.ts';
import type { Uniform } from '../../core/geometry/support/random-scene.ts';
import { type Answer, coreAnswer, type TestRay } from './rays.ts';

/**
 * How far single precision may shift a ray against what it meets, in metres: a few units in the last place of the largest
 * coordinate that comes into it.
 */
export function looseness_m(ray: TestRay, t: number): number {
  const o: Vec3 = [ray[0], ray[1], ray[2]];
  const d: Vec3 = [ray[3], ray[4], ray[5]];
  const largest = Math.max(...o.map(Math.abs), ...add(o, scale(d, t)).map(Math.abs));
  return 1e-6 + 8e-7 * largest;
}

/**
 * Why an answer of the card that is not the core's may stand: the two surfaces lie within what single precision can tell
 * apart, or the core itself gives that answer to a ray shifted by no more than that. Null where there is no such excuse.
 */
export function explained(
  geometry: Geometry,
  paneDirect: Float64Array,
  ray: TestRay,
  core: Answer,
  card: Answer,
  uniform: Uniform,
): 'coincident surfaces' | 'an edge' | null {
  const far = Math.max(core.part < 0 ? 0 : core.t, card.part < 0 ? 0 : card.t);
  const loose = looseness_m(ray, far);
  const d: Vec3 = [ray[3], ray[4], ray[5]];
  const same = sameLight(card.passed, core.passed);
  const apart_m = Math.abs(core.t - card.t) * length(d);
  if (core.part >= 0 && card.part >= 0 && same && apart_m <= loose) return 'coincident surfaces';
  for (let i = 0; i < 200; i++) {
    const turn = (): Vec3 => {
      const across = cross(d, [uniform(-1, 1), uniform(-1, 1), uniform(-1, 1)]);
      return scale(normalize(across), uniform(0, loose));
    };
    const [from, to] = [turn(), turn()];
    const reach = Math.max(far, 1e-3);
    const shifted: TestRay = [
      ray[0] + from[0],
      ray[1] + from[1],
      ray[2] + from[2],
      d[0] + (to[0] - from[0]) / reach,
      d[1] + (to[1] - from[1]) / reach,
      d[2] + (to[2] - from[2]) / reach,
      ray[6],
      ray[7],
    ];
    const other = coreAnswer(geometry, paneDirect, shifted);
    if (other.part === card.part && sameLight(card.passed, other.passed)) return 'an edge';
  }
  return null;
}

export function sameLight(a: number, b: number): boolean {
  return Math.abs(a - b) <= 1e-6;
}
