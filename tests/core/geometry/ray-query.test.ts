import { describe, expect, it } from 'vitest';
import { buildGeometry } from '../../../src/core/geometry/geometry.ts';
import { placementFrom, WORLD, worldPoint } from '../../../src/core/geometry/placement.ts';
import { nearestHit, transmittance } from '../../../src/core/geometry/ray-query.ts';
import { nearestHitByLoop, transmittanceByLoop } from '../../../src/core/geometry/ray-query-loop.ts';
import { newHit } from '../../../src/core/geometry/ray-shape.ts';
import type { Part, Shape } from '../../../src/core/geometry/shape.ts';
import { add, cross, length, normalize, scale, subtract, type Vec3 } from '../../../src/core/math/vec3.ts';
import { IDENTITY } from '../../tolerances.ts';
import { randomStream } from './support/random.ts';
import { PANE_DIRECT, randomParts, randomPoint, type Uniform, uniformOf } from './support/random-scene.ts';

interface TestRay {
  readonly o: Vec3;
  readonly d: Vec3;
  readonly tMin: number;
  readonly tMax: number;
}

const REACH = 6;

/** A point where a hit is decided by the last digits: a corner, an edge, the rim of an opening, a tangent point. */
function delicatePoint(shape: Shape, uniform: Uniform): Vec3 {
  const sign = () => (uniform(0, 1) < 0.5 ? -1 : 1);
  switch (shape.kind) {
    case 'box': {
      const [x, y, z] = shape.halfSize_m;
      return worldPoint(shape.placement, [sign() * x, sign() * y, uniform(0, 1) < 0.5 ? z : uniform(-z, z)]);
    }
    case 'cylinder':
    case 'arc': {
      const angle = uniform(0, 2 * Math.PI);
      return worldPoint(shape.placement, [
        shape.radius_m * Math.cos(angle),
        sign() * shape.halfHeight_m,
        shape.radius_m * Math.sin(angle),
      ]);
    }
    case 'capsule':
      return worldPoint(shape.placement, [shape.radius_m, sign() * shape.halfLength_m, 0]);
    case 'sphere':
      return add(shape.centre_m, scale(normalize(randomPoint(uniform, 1)), shape.radius_m));
    case 'panel': {
      const opening = shape.openings[0];
      if (opening && uniform(0, 1) < 0.5)
        return worldPoint(shape.placement, [opening.left_m, uniform(opening.bottom_m, opening.top_m), 0]);
      return worldPoint(shape.placement, [sign() * shape.halfSize_m[0], sign() * shape.halfSize_m[1], 0]);
    }
    case 'triangle': {
      const s = uniform(0, 1) < 0.3 ? 0 : uniform(0, 1);
      return add(scale(shape.a_m, 1 - s), scale(shape.b_m, s));
    }
  }
}

function centreOf(shape: Shape): Vec3 {
  if (shape.kind === 'sphere') return shape.centre_m;
  return shape.kind === 'triangle' ? shape.a_m : shape.placement.origin_m;
}

const RAY_KINDS = [
  'anywhere',
  'along an axis',
  'in a plane of two axes',
  'at a delicate point',
  'tangent',
  'from a surface',
  'from inside',
  'from far away',
  'between two points',
] as const;

function randomRay(kind: (typeof RAY_KINDS)[number], parts: readonly Part[], uniform: Uniform): TestRay {
  const { shape } = parts[Math.floor(uniform(0, parts.length))]!;
  const o = randomPoint(uniform, REACH);
  const d = scale(normalize(randomPoint(uniform, 1)), uniform(0.1, 10));
  const endless = { tMin: 0, tMax: Number.POSITIVE_INFINITY };
  switch (kind) {
    case 'anywhere':
      return { o, d, ...endless };
    case 'along an axis': {
      const axis = Math.floor(uniform(0, 3));
      const unit: Vec3 = [axis === 0 ? 1 : 0, axis === 1 ? -1 : 0, axis === 2 ? 1 : 0];
      // Through a delicate point half the time: then it runs along edges and in the planes of faces.
      const through = uniform(0, 1) < 0.5 ? delicatePoint(shape, uniform) : o;
      return { o: subtract(through, scale(unit, uniform(0, 8))), d: unit, ...endless };
    }
    case 'in a plane of two axes':
      return { o: delicatePoint(shape, uniform), d: [d[0], 0, d[2]], tMin: -10, tMax: 10 };
    case 'at a delicate point':
      return { o, d: subtract(delicatePoint(shape, uniform), o), ...endless };
    case 'tangent': {
      const point = delicatePoint(shape, uniform);
      const across = normalize(cross(subtract(point, centreOf(shape)), d));
      return { o: subtract(point, scale(across, 3)), d: across, ...endless };
    }
    case 'from a surface':
      return { o: delicatePoint(shape, uniform), d, tMin: 1e-6, tMax: 100 };
    case 'from inside':
      return { o: centreOf(shape), d, ...endless };
    case 'from far away': {
      const far = scale(normalize(d), -(10 ** uniform(2, 6)));
      return { o: far, d: subtract(o, far), tMin: 0, tMax: 2 };
    }
    case 'between two points':
      return { o, d: subtract(randomPoint(uniform, REACH), o), tMin: 1e-6, tMax: 1 - 1e-6 };
  }
}

describe('the hierarchy against the plain loop', () => {
  // derived: both apply the same shape tests, so the hierarchy may not change a single digit of any answer.
  it.each(RAY_KINDS)('finds the same nearest hit and the same transmittance: rays %s', (kind) => {
    const random = randomStream(20_260_111 + RAY_KINDS.indexOf(kind));
    const uniform = uniformOf(random);
    const hit = newHit();
    const expected = newHit();
    let hits = 0;
    let partly = 0;
    for (const count of [1, 2, 3, 9, 70, 70, 400]) {
      const parts = randomParts(uniform, count, REACH);
      const geometry = buildGeometry(parts);
      for (let i = 0; i < 500; i++) {
        const ray = randomRay(kind, parts, uniform);
        const args = [...ray.o, ...ray.d, ray.tMin, ray.tMax] as const;
        const found = nearestHit(geometry, ...args, hit);
        expect(nearestHitByLoop(geometry, ...args, expected)).toBe(found);
        if (found) {
          hits++;
          expect(hit).toEqual(expected);
          expect(Math.abs(Math.hypot(hit.nx, hit.ny, hit.nz) - 1)).toBeLessThan(IDENTITY);
          expect(hit.t).toBeGreaterThanOrEqual(ray.tMin);
          expect(hit.t).toBeLessThanOrEqual(ray.tMax);
        }
        const passed = transmittance(geometry, ...args, PANE_DIRECT);
        const passedByLoop = transmittanceByLoop(geometry, ...args, PANE_DIRECT);
        if (passed > 0 && passed < 1) partly++;
        expect(Math.abs(passed - passedByLoop)).toBeLessThanOrEqual(IDENTITY * passedByLoop);
        expect(passed < 1).toBe(found);
      }
    }
    expect(hits).toBeGreaterThan(500);
    expect(partly).toBeGreaterThan(20);
  });

  it('gives a far hit the same digits in a scene a hundred kilometres from the origin', () => {
    const uniform = uniformOf(randomStream(5));
    const offset: Vec3 = [1e5, 40, -1e5];
    const parts = randomParts(uniform, 60, REACH).map((part) => ({
      ...part,
      shape: moved(part.shape, offset),
    }));
    const geometry = buildGeometry(parts);
    const [hit, expected] = [newHit(), newHit()];
    for (let i = 0; i < 2000; i++) {
      const o = add(offset, randomPoint(uniform, REACH));
      const d = subtract(delicatePoint(parts[i % parts.length]!.shape, uniform), o);
      const found = nearestHit(geometry, ...o, ...d, 0, 10, hit);
      expect(nearestHitByLoop(geometry, ...o, ...d, 0, 10, expected)).toBe(found);
      if (found) expect(hit).toEqual(expected);
    }
  });
});

function moved(shape: Shape, by: Vec3): Shape {
  if (shape.kind === 'sphere') return { ...shape, centre_m: add(shape.centre_m, by) };
  if (shape.kind === 'triangle')
    return { ...shape, a_m: add(shape.a_m, by), b_m: add(shape.b_m, by), c_m: add(shape.c_m, by) };
  return { ...shape, placement: { ...shape.placement, origin_m: add(shape.placement.origin_m, by) } };
}

describe('a ray', () => {
  const wall: Shape = { kind: 'panel', placement: WORLD, halfSize_m: [1, 1], openings: [] };
  const material = { kind: 'material', index: 0 } as const;
  const pane = (index: number) => ({ kind: 'pane', index }) as const;
  const at = (z: number) => placementFrom([0, 0, z]);

  it('counts t in lengths of its direction and includes both ends', () => {
    // derived: from z = −3 to the plane z = 0 with d = 1.5 along z is t = 2.
    const geometry = buildGeometry([{ shape: wall, substance: material, owner: 0 }]);
    const hit = newHit();
    expect(nearestHit(geometry, 0, 0, -3, 0, 0, 1.5, 0, 5, hit)).toBe(true);
    expect(hit.t).toBe(2);
    expect(nearestHit(geometry, 0, 0, -3, 0, 0, 1.5, 0, 2, hit)).toBe(true);
    expect(nearestHit(geometry, 0, 0, -3, 0, 0, 1.5, 2, 5, hit)).toBe(true);
    expect(nearestHit(geometry, 0, 0, -3, 0, 0, 1.5, 0, 1.999, hit)).toBe(false);
    expect(nearestHit(geometry, 0, 0, -3, 0, 0, 1.5, 2.001, 5, hit)).toBe(false);
  });

  it('leaves the hit as it was when it meets nothing', () => {
    const geometry = buildGeometry([{ shape: wall, substance: material, owner: 0 }]);
    const hit = { t: 7, shape: 3, nx: 0, ny: 1, nz: 0, front: true };
    expect(nearestHit(geometry, 0, 0, -3, 0, 0, -1, 0, 5, hit)).toBe(false);
    expect(hit).toEqual({ t: 7, shape: 3, nx: 0, ny: 1, nz: 0, front: true });
  });

  it('without a direction, or with one that is not a number, meets nothing', () => {
    const geometry = buildGeometry([{ shape: wall, substance: material, owner: 0 }]);
    const hit = newHit();
    for (const d of [0, Number.NaN]) {
      expect(nearestHit(geometry, 0, 0, 0, d, d, d, 0, 1, hit)).toBe(false);
      expect(transmittance(geometry, 0, 0, 0, d, d, d, 0, 1, PANE_DIRECT)).toBe(1);
    }
    expect(nearestHit(geometry, Number.NaN, 0, 0, 0, 0, 1, 0, 1, hit)).toBe(false);
  });

  it('of surfaces that coincide, meets the one listed first', () => {
    const parts = [0, 1, 2].map((owner) => ({ shape: wall, substance: material, owner }));
    const geometry = buildGeometry([
      { shape: { ...wall, placement: at(1) }, substance: material, owner: 9 },
      ...parts,
    ]);
    const hit = newHit();
    expect(nearestHit(geometry, 0.1, 0.2, -3, 0, 0, 1, 0, 9, hit)).toBe(true);
    expect(hit.shape).toBe(1);
  });

  it('passes panes one after the other and nothing behind an opaque wall', () => {
    // derived: 0.5 · 0.8; a pane of glass met on two surfaces counts twice, 0.95²; from inside it, once.
    const ball: Shape = { kind: 'sphere', centre_m: [0, 0, 6], radius_m: 0.5 };
    const geometry = buildGeometry([
      { shape: { ...wall, placement: at(1) }, substance: pane(0), owner: 0 },
      { shape: { ...wall, placement: at(2) }, substance: pane(1), owner: 0 },
      { shape: { ...wall, placement: at(4) }, substance: material, owner: 0 },
      { shape: ball, substance: pane(2), owner: 0 },
    ]);
    const through = (z0: number, z1: number) =>
      transmittance(geometry, 0, 0, z0, 0, 0, z1 - z0, 0, 1, PANE_DIRECT);
    expect(through(0, 1.5)).toBe(0.5);
    expect(through(0, 3)).toBe(0.4);
    expect(through(0, 5)).toBe(0);
    expect(through(5, 7)).toBeCloseTo(0.95 * 0.95, 12);
    expect(through(6, 7)).toBe(0.95);
    expect(through(6, 6.1)).toBe(1);
  });
});

describe('how the nearest hit lies', () => {
  it('is where the ray says and nowhere nearer: seeded points of every kind of shape', () => {
    // derived: going from a visible point back to the eye, nothing may be in between.
    const uniform = uniformOf(randomStream(77));
    const parts = randomParts(uniform, 50, REACH).map((p) => ({
      ...p,
      substance: { kind: 'material', index: 0 } as const,
    }));
    const geometry = buildGeometry(parts);
    const hit = newHit();
    let seen = 0;
    for (let i = 0; i < 3000; i++) {
      const o = randomPoint(uniform, 2 * REACH);
      const d = normalize(subtract(randomPoint(uniform, REACH), o));
      if (!nearestHit(geometry, ...o, ...d, 0, 100, hit)) continue;
      seen++;
      const point = add(o, scale(d, hit.t));
      const back = subtract(o, point);
      expect(transmittance(geometry, ...point, ...back, 1e-7 / length(back), 1, PANE_DIRECT)).toBe(1);
      expect(hit.front).toBe(d[0] * hit.nx + d[1] * hit.ny + d[2] * hit.nz < 0);
    }
    expect(seen).toBeGreaterThan(500);
  });
});
