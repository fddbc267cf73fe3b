import { describe, expect, it } from 'vitest';
import { placementFrom, WORLD, worldDirection, worldPoint } from '../../../src/core/geometry/placement.ts';
import type { Shape } from '../../../src/core/geometry/shape.ts';
import {
  add,
  cross,
  distance,
  dot,
  normalize,
  scale,
  subtract,
  type Vec3,
} from '../../../src/core/math/vec3.ts';
import { IDENTITY } from '../../tolerances.ts';
import { castAt } from './support/one-shape.ts';
import { randomStream } from './support/random.ts';
import { randomPoint, randomShape, type Uniform, uniformOf } from './support/random-scene.ts';

function near(found: Vec3, expected: Vec3, tolerance = IDENTITY): void {
  expect(distance(found, expected), `${found} against ${expected}`).toBeLessThan(tolerance);
}

// All expected distances and normals in this file: derived, by hand, beside each.

describe('box', () => {
  const cast = castAt({ kind: 'box', placement: WORLD, halfSize_m: [1, 2, 3] });

  it('is met on each face with the outward normal', () => {
    for (const axis of [0, 1, 2] as const)
      for (const sign of [-1, 1]) {
        const normal: Vec3 = [axis === 0 ? sign : 0, axis === 1 ? sign : 0, axis === 2 ? sign : 0];
        const found = cast(scale(normal, 10), scale(normal, -1))!;
        expect(found.t).toBe(10 - (axis + 1));
        near(found.normal, normal);
        expect(found.front).toBe(true);
      }
  });

  it('is met on its far wall from inside', () => {
    // 0.6/0.8 direction: x = 1 at t = 1/0.6, y = 2 at t = 2.5: the x face is nearer.
    const found = cast([0, 0, 0], [0.6, 0.8, 0])!;
    expect(Math.abs(found.t - 1 / 0.6)).toBeLessThan(IDENTITY);
    near(found.normal, [1, 0, 0]);
    expect(found.front).toBe(false);
  });

  it('is met at 45° through the middle of a face', () => {
    // From (3, 0, 0) toward −x+z: x = 1 after t = 2, where z = 2 < 3.
    expect(cast([3, 0, 0], [-1, 0, 1])!.t).toBe(2);
  });

  it('is met along its edges and at its corners, and missed just beside them', () => {
    expect(cast([1, 2, -9], [0, 0, 1])!.t).toBe(6);
    expect(cast([-9, 2, 3], [1, 0, 0])!.t).toBe(8);
    expect(cast([1.000001, 2, -9], [0, 0, 1])).toBeNull();
    expect(cast([4, 5, 6], [-1, -1, -1])!.t).toBe(3);
    expect(cast([2, 2, -4], [-1, 0, 1])!.t).toBe(1);
  });

  it('has a usable face when it has no thickness', () => {
    const found = castAt({ kind: 'box', placement: WORLD, halfSize_m: [1, 0, 1] })(
      [0.5, 2, 0.5],
      [0, -1, 0],
    )!;
    expect(found.t).toBe(2);
    near(found.normal, [0, 1, 0]);
  });

  it('turns with its placement', () => {
    // A cube of half size 1 turned 45° about y shows an edge to +x at √2.
    const turned = castAt({
      kind: 'box',
      placement: placementFrom([0, 0, 0], [0, 45, 0]),
      halfSize_m: [1, 1, 1],
    });
    expect(Math.abs(turned([5, 0, 0.001], [-1, 0, 0])!.t - (5 - Math.SQRT2 + 0.001))).toBeLessThan(IDENTITY);
  });
});

describe('sphere', () => {
  const cast = castAt({ kind: 'sphere', centre_m: [1, 2, 3], radius_m: 2 });

  it('is met at the distance of its centre less its radius, from outside and inside', () => {
    const found = cast([1, 2, -7], [0, 0, 1])!;
    expect(found.t).toBe(8);
    near(found.normal, [0, 0, -1]);
    const inside = cast([1, 2, 3], [0, 0.5, 0])!;
    expect(inside.t).toBe(4);
    near(inside.normal, [0, 1, 0]);
    expect(inside.front).toBe(false);
  });

  it('is met off centre where Pythagoras says', () => {
    // Miss distance 1.2 of radius 2: half chord √(4 − 1.44) = 1.6.
    const found = cast([1, 3.2, -7], [0, 0, 1])!;
    expect(Math.abs(found.t - (10 - 1.6))).toBeLessThan(IDENTITY);
    near(found.normal, [0, 0.6, -0.8]);
  });

  it('is met to a nanometre from a thousand kilometres', () => {
    const found = cast([1, 3.2, 3 - 1e6], [0, 0, 1])!;
    expect(Math.abs(found.t - (1e6 - 1.6))).toBeLessThan(1e-9);
  });

  it('is missed behind the ray and beside it', () => {
    expect(cast([1, 2, 6], [0, 0, 1])).toBeNull();
    expect(cast([3.001, 2, -7], [0, 0, 1])).toBeNull();
  });
});

describe('cylinder', () => {
  const cast = castAt({ kind: 'cylinder', placement: WORLD, radius_m: 1, halfHeight_m: 2 });

  it('is met on its side and on both caps', () => {
    const side = cast([5, 1, 0], [-1, 0, 0])!;
    expect(side.t).toBe(4);
    near(side.normal, [1, 0, 0]);
    const top = cast([0.5, 7, 0.5], [0, -1, 0])!;
    expect(top.t).toBe(5);
    near(top.normal, [0, 1, 0]);
    const bottom = cast([0.5, -7, 0.5], [0, 2, 0])!;
    expect(bottom.t).toBe(2.5);
    near(bottom.normal, [0, -1, 0]);
  });

  it('is met off centre where Pythagoras says', () => {
    // z = 0.6: the side is at x = 0.8.
    const found = cast([5, 0, 0.6], [-1, 0, 0])!;
    expect(Math.abs(found.t - 4.2)).toBeLessThan(IDENTITY);
    near(found.normal, [0.8, 0, 0.6]);
  });

  it('is met from inside on its side, or through a cap', () => {
    // Direction (0.6, 0.8, 0): side at t = 1/0.6 where y = 4/3 < 2; from y = 1.5 the cap comes first, at t = 0.625.
    const side = cast([0, 0, 0], [0.6, 0.8, 0])!;
    expect(Math.abs(side.t - 1 / 0.6)).toBeLessThan(IDENTITY);
    near(side.normal, [1, 0, 0]);
    const cap = cast([0, 1.5, 0], [0.6, 0.8, 0])!;
    expect(Math.abs(cap.t - 0.625)).toBeLessThan(IDENTITY);
    near(cap.normal, [0, 1, 0]);
    expect(cap.front).toBe(false);
  });

  it('is met along its axis, nearly along it and across it', () => {
    expect(cast([0, 9, 0], [0, -1, 0])!.t).toBe(7);
    expect(cast([0.3, 9, 0], [1e-14, -1, 1e-15])!.t).toBeCloseTo(7, 12);
    expect(cast([0.3, 9, 0], [1e-9, -1, 0])!.t).toBeCloseTo(7, 9);
    expect(cast([1.0001, 9, 0], [0, -1, 0])).toBeNull();
    expect(cast([5, 2.0001, 0], [-1, 0, 0])).toBeNull();
  });

  it('is met to a nanometre from a thousand kilometres', () => {
    expect(Math.abs(cast([1e6, 0, 0.6], [-1, 0, 0])!.t - (1e6 - 0.8))).toBeLessThan(1e-9);
  });
});

describe('capsule', () => {
  const cast = castAt({ kind: 'capsule', placement: WORLD, radius_m: 0.5, halfLength_m: 1 });

  it('is met on its straight part and on its round ends', () => {
    const side = cast([3, 0.9, 0], [-1, 0, 0])!;
    expect(side.t).toBe(2.5);
    near(side.normal, [1, 0, 0]);
    const end = cast([0, 9, 0], [0, -1, 0])!;
    expect(end.t).toBe(7.5);
    near(end.normal, [0, 1, 0]);
    // 0.3 above the straight part: the ball is 0.4 wide there.
    const shoulder = cast([3, 1.3, 0], [-1, 0, 0])!;
    expect(Math.abs(shoulder.t - 2.6)).toBeLessThan(IDENTITY);
    near(shoulder.normal, [0.8, 0.6, 0]);
    // 0.3 off the axis: the end is 0.4 above the straight part.
    const beside = cast([0.3, 9, 0], [0, -1, 0])!;
    expect(Math.abs(beside.t - 7.6)).toBeLessThan(IDENTITY);
    near(beside.normal, [0.6, 0.8, 0]);
  });

  it('is met from inside at its far end', () => {
    const found = cast([0, -1.2, 0], [0, 1, 0])!;
    expect(Math.abs(found.t - 2.7)).toBeLessThan(IDENTITY);
    near(found.normal, [0, 1, 0]);
    expect(found.front).toBe(false);
  });

  it('is missed past the round of its end, inside the tube', () => {
    expect(cast([0.45, 1.3, -3], [0, 0, 1])).toBeNull();
    expect(cast([3, 1.501, 0], [-1, 0, 0])).toBeNull();
  });

  it('without a straight part is a sphere', () => {
    const uniform = uniformOf(randomStream(9));
    const [ball, sphere] = [
      castAt({ kind: 'capsule', placement: WORLD, radius_m: 0.7, halfLength_m: 0 }),
      castAt({ kind: 'sphere', centre_m: [0, 0, 0], radius_m: 0.7 }),
    ];
    let hits = 0;
    for (let i = 0; i < 1000; i++) {
      const o = randomPoint(uniform, 3);
      const d = subtract(randomPoint(uniform, 0.7), o);
      const [a, b] = [ball(o, d), sphere(o, d)];
      expect(a === null).toBe(b === null);
      if (!a || !b) continue;
      hits++;
      expect(Math.abs(a.t - b.t)).toBeLessThan(1e-9);
    }
    expect(hits).toBeGreaterThan(400);
  });
});

describe('panel', () => {
  const cast = castAt({
    kind: 'panel',
    placement: placementFrom([0, 1, 2]),
    halfSize_m: [2, 1],
    openings: [{ left_m: -1, bottom_m: -0.5, right_m: 0.5, top_m: 0.25 }],
  });

  it('is met from both sides, its normal always toward its front', () => {
    const front = cast([1.5, 1, 5], [0, 0, -1])!;
    expect(front.t).toBe(3);
    near(front.normal, [0, 0, 1]);
    expect(front.front).toBe(true);
    const back = cast([1.5, 1, -1], [0, 0, 1])!;
    expect(back.t).toBe(3);
    near(back.normal, [0, 0, 1]);
    expect(back.front).toBe(false);
  });

  it('lets through what passes its opening, not what meets its frame', () => {
    for (const [x, y, open] of [
      [0, 1, true],
      [-0.999, 0.501, true],
      [0.499, 1.249, true],
      [-1.001, 1, false],
      [0.501, 1, false],
      [0, 0.499, false],
      [0, 1.251, false],
    ] as const)
      expect(cast([x, y, 5], [0, 0, -1]) === null, `${x}, ${y}`).toBe(open);
  });

  it('holds at the very edge of the opening and of the sheet', () => {
    expect(cast([-1, 1, 5], [0, 0, -1])).not.toBeNull();
    expect(cast([2, 2, 5], [0, 0, -1])).not.toBeNull();
    expect(cast([2.000001, 2, 5], [0, 0, -1])).toBeNull();
  });

  it('has no thickness for a ray in its own plane', () => {
    expect(cast([-5, 1.5, 2], [1, 0, 0])).toBeNull();
  });

  it('follows the round of its upper corners only', () => {
    // Corner centre (1, 0.5) of radius 1 from the middle: at 45° it reaches 1/√2 = 0.7071 beyond, each way.
    const rounded = castAt({
      kind: 'panel',
      placement: WORLD,
      halfSize_m: [2, 1.5],
      topRadius_m: 1,
      openings: [],
    });
    expect(rounded([1.707, 1.207, 1], [0, 0, -1])).not.toBeNull();
    expect(rounded([1.708, 1.208, 1], [0, 0, -1])).toBeNull();
    expect(rounded([-1.708, 1.208, 1], [0, 0, -1])).toBeNull();
    expect(rounded([1.999, -1.499, 1], [0, 0, -1])).not.toBeNull();
    expect(rounded([0.9, 1.499, 1], [0, 0, -1])).not.toBeNull();
  });
});

describe('arc', () => {
  // A quarter of a tube of radius 1 from +x to +z.
  const cast = castAt({
    kind: 'arc',
    placement: WORLD,
    radius_m: 1,
    halfHeight_m: 2,
    from_deg: 0,
    to_deg: 90,
  });

  it('is met from outside and from within, its normal always away from the axis', () => {
    const s = Math.SQRT1_2;
    const outside = cast([3 * s, 0.5, 3 * s], [-s, 0, -s])!;
    expect(Math.abs(outside.t - 2)).toBeLessThan(IDENTITY);
    near(outside.normal, [s, 0, s]);
    expect(outside.front).toBe(true);
    const within = cast([0, 0.5, 0], [s, 0, s])!;
    expect(Math.abs(within.t - 1)).toBeLessThan(IDENTITY);
    near(within.normal, [s, 0, s]);
    expect(within.front).toBe(false);
  });

  it('is open where the tube is not covered: the ray goes on to the sheet or past it', () => {
    // Along +x at z = 0.6 the tube is met at x = −0.8 (open) and x = +0.8 (sheet).
    expect(Math.abs(cast([-5, 0, 0.6], [1, 0, 0])!.t - 5.8)).toBeLessThan(IDENTITY);
    expect(cast([-5, 0, -0.6], [1, 0, 0])).toBeNull();
    expect(cast([5, 2.001, 0.6], [-1, 0, 0])).toBeNull();
    expect(cast([0, -5, 0], [0, 1, 0])).toBeNull();
  });

  it('ends at its angles', () => {
    for (const [angle_deg, there] of [
      [0.001, true],
      [89.999, true],
      [-0.001, false],
      [90.001, false],
      [180, false],
    ] as const) {
      const a = (angle_deg * Math.PI) / 180;
      const out: Vec3 = [Math.cos(a), 0, Math.sin(a)];
      expect(cast([0, 0, 0], out) !== null, `${angle_deg}`).toBe(there);
    }
  });

  it('may be met twice, and closes on itself at 360°', () => {
    const tube = castAt({
      kind: 'arc',
      placement: WORLD,
      radius_m: 1,
      halfHeight_m: 2,
      from_deg: 10,
      to_deg: 370,
    });
    expect(tube([-5, 0, 0], [1, 0, 0])!.t).toBe(4);
    expect(tube([-5, 0, 0], [1, 0, 0], 4.5)!.t).toBe(6);
    for (let a = 0; a < 360; a += 0.5) {
      const out: Vec3 = [Math.cos((a * Math.PI) / 180), 0, Math.sin((a * Math.PI) / 180)];
      expect(Math.abs(tube([0, 0, 0], out)!.t - 1)).toBeLessThan(IDENTITY);
    }
  });

  it('runs through 360° where it ends at the smaller angle', () => {
    const across = castAt({
      kind: 'arc',
      placement: WORLD,
      radius_m: 1,
      halfHeight_m: 1,
      from_deg: 350,
      to_deg: 10,
    });
    expect(across([0, 0, 0], [1, 0, 0.1])).not.toBeNull();
    expect(across([0, 0, 0], [1, 0, 0.3])).toBeNull();
    expect(across([0, 0, 0], [-1, 0, 0])).toBeNull();
  });
});

describe('triangle', () => {
  const cast = castAt({ kind: 'triangle', a_m: [0, 0, 0], b_m: [4, 0, 0], c_m: [0, 3, 0] });

  it('is met within, on its edges and at its corners, from both sides', () => {
    const front = cast([1, 1, 5], [0, 0, -1])!;
    expect(front.t).toBe(5);
    near(front.normal, [0, 0, 1]);
    expect(front.front).toBe(true);
    expect(cast([1, 1, -5], [0, 0, 1])!.front).toBe(false);
    for (const [x, y] of [
      [2, 0],
      [0, 1.5],
      [2, 1.5],
      [0, 0],
      [4, 0],
      [0, 3],
    ] as const)
      expect(cast([x, y, 5], [0, 0, -1])!.t, `${x}, ${y}`).toBe(5);
    expect(cast([2.0001, 1.5, 5], [0, 0, -1])).toBeNull();
    expect(cast([-0.0001, 1, 5], [0, 0, -1])).toBeNull();
  });

  it('is met aslant where the plane says', () => {
    // From (0, 1, 2) along (1, 0, −2): z = 0 at t = 1, x = 1.
    expect(cast([0, 1, 2], [1, 0, -2])!.t).toBe(1);
  });

  it('is not met edge-on, whichever way it is turned', () => {
    expect(cast([-5, 1, 0], [1, 0, 0])).toBeNull();
    const uniform = uniformOf(randomStream(31));
    for (let i = 0; i < 2000; i++) {
      const [a_m, b_m, c_m] = [randomPoint(uniform, 1), randomPoint(uniform, 1), randomPoint(uniform, 1)];
      const edgeOn = castAt({ kind: 'triangle', a_m, b_m, c_m });
      // In its plane, off to one side of it.
      const outside = add(a_m, scale(subtract(a_m, b_m), 2));
      expect(edgeOn(outside, subtract(outside, c_m))).toBeNull();
    }
  });
});

/** Whether a point belongs to a closed shape, and whether one on a sheet's surface belongs to the sheet: the definitions. */
function inSolid(shape: Shape, p: Vec3, slack: number): boolean {
  if (shape.kind === 'sphere') return distance(p, shape.centre_m) <= shape.radius_m + slack;
  if (shape.kind === 'triangle') throw new Error('no solid');
  const q = localPoint(shape, p);
  switch (shape.kind) {
    case 'box':
      return shape.halfSize_m.every((h, k) => Math.abs(q[k]!) <= h + slack);
    case 'cylinder':
      return Math.hypot(q[0], q[2]) <= shape.radius_m + slack && Math.abs(q[1]) <= shape.halfHeight_m + slack;
    case 'capsule': {
      const y = Math.max(-shape.halfLength_m, Math.min(shape.halfLength_m, q[1]));
      return distance(q, [0, y, 0]) <= shape.radius_m + slack;
    }
    default:
      throw new Error('no solid');
  }
}

function localPoint(shape: Exclude<Shape, { kind: 'sphere' | 'triangle' }>, p: Vec3): Vec3 {
  const { origin_m, x, y, z } = shape.placement;
  const d = subtract(p, origin_m);
  return [dot(d, x), dot(d, y), dot(d, z)];
}

/** A ray from anywhere to somewhere near a shape's middle. */
function randomRayAt(shape: Shape, uniform: Uniform): { o: Vec3; d: Vec3 } {
  if (shape.kind === 'triangle') throw new Error('no middle');
  const middle = shape.kind === 'sphere' ? shape.centre_m : shape.placement.origin_m;
  const o = randomPoint(uniform, 4);
  return { o, d: normalize(subtract(add(middle, randomPoint(uniform, 0.6)), o)) };
}

describe('closed shapes against their definition as sets of points', () => {
  it.each([0, 1, 2, 3])('kind %i: the ray is inside exactly between its two hits', (kind) => {
    const uniform = uniformOf(randomStream(400 + kind));
    let [hits, astray] = [0, 0];
    for (let i = 0; i < 400; i++) {
      const shape = randomShape(uniform, kind, 1, i % 3 === 0);
      const cast = castAt(shape);
      const { o, d } = randomRayAt(shape, uniform);
      const first = cast(o, d, -100);
      const second = first && cast(o, d, first.t + 1e-9);
      if (first && second) hits++;
      for (let t = -10; t < 10; t += 0.05) {
        const between = first !== null && second !== null && t >= first.t && t <= second.t;
        // A nanometre of slack either way for points that fall on the surface.
        if (inSolid(shape, add(o, scale(d, t)), between ? 1e-9 : -1e-9) !== between) astray++;
      }
      for (const met of [first, second]) {
        if (!met) continue;
        const p = add(o, scale(d, met.t));
        expect(inSolid(shape, add(p, scale(met.normal, 1e-6)), 0)).toBe(false);
        expect(inSolid(shape, add(p, scale(met.normal, -1e-6)), 0)).toBe(true);
      }
      if (first && second) expect([first.front, second.front]).toEqual([true, false]);
    }
    expect(astray).toBe(0);
    expect(hits).toBeGreaterThan(100);
  });
});

describe('sheets against their definition', () => {
  it('an arc is met where the point is on the tube and at an angle it covers', () => {
    const uniform = uniformOf(randomStream(55));
    let hits = 0;
    for (let i = 0; i < 3000; i++) {
      const shape = randomShape(uniform, 5, 1, i % 3 === 0);
      if (shape.kind !== 'arc') throw new Error('not an arc');
      const { o, d } = randomRayAt(shape, uniform);
      const met = castAt(shape)(o, d, -100);
      if (!met) continue;
      hits++;
      const q = localPoint(shape, add(o, scale(d, met.t)));
      expect(Math.abs(Math.hypot(q[0], q[2]) - shape.radius_m)).toBeLessThan(1e-9);
      expect(Math.abs(q[1])).toBeLessThanOrEqual(shape.halfHeight_m + 1e-6);
      const past_deg = ((Math.atan2(q[2], q[0]) * 180) / Math.PI - shape.from_deg + 720) % 360;
      expect(
        Math.min(past_deg, 360 - past_deg) < 1e-3 || past_deg <= shape.to_deg - shape.from_deg + 1e-3,
      ).toBe(true);
      near(
        met.normal,
        worldDirection(shape.placement, [q[0] / shape.radius_m, 0, q[2] / shape.radius_m]),
        1e-8,
      );
    }
    expect(hits).toBeGreaterThan(500);
  });

  it('a panel is met where the point of its plane is within its outline and outside its openings', () => {
    const uniform = uniformOf(randomStream(56));
    let [hits, misses] = [0, 0];
    for (let i = 0; i < 3000; i++) {
      const shape = randomShape(uniform, 4, 1, i % 3 === 0);
      if (shape.kind !== 'panel') throw new Error('not a panel');
      const [hx, hy] = shape.halfSize_m;
      const [x, y] = [uniform(-1.2, 1.2) * hx, uniform(-1.2, 1.2) * hy];
      const o = randomPoint(uniform, 4);
      const met = castAt(shape)(o, subtract(worldPoint(shape.placement, [x, y, 0]), o), -100);
      const r = shape.topRadius_m ?? 0;
      const [cx, cy] = [Math.abs(x) - (hx - r), y - (hy - r)];
      const within = Math.abs(x) <= hx && Math.abs(y) <= hy && !(cx > 0 && cy > 0 && Math.hypot(cx, cy) > r);
      const inOpening = shape.openings.some(
        (w) => x > w.left_m && x < w.right_m && y > w.bottom_m && y < w.top_m,
      );
      expect(met !== null).toBe(within && !inOpening);
      if (met) {
        hits++;
        expect(Math.abs(met.t - 1)).toBeLessThan(1e-9);
        near(met.normal, shape.placement.z);
      } else misses++;
    }
    expect(Math.min(hits, misses)).toBeGreaterThan(500);
  });

  it('a triangle is met where the point of its plane is a mean of its corners with positive weights', () => {
    const uniform = uniformOf(randomStream(57));
    for (let i = 0; i < 3000; i++) {
      const [a_m, b_m, c_m] = [randomPoint(uniform, 2), randomPoint(uniform, 2), randomPoint(uniform, 2)];
      const normal = cross(subtract(b_m, a_m), subtract(c_m, a_m));
      const [u, v] = [uniform(-0.5, 1.5), uniform(-0.5, 1.5)];
      const point = add(a_m, add(scale(subtract(b_m, a_m), u), scale(subtract(c_m, a_m), v)));
      const o = add(point, add(scale(normalize(normal), 2), randomPoint(uniform, 1)));
      const met = castAt({ kind: 'triangle', a_m, b_m, c_m })(o, subtract(point, o));
      expect(met !== null).toBe(u >= 0 && v >= 0 && u + v <= 1);
      if (!met) continue;
      expect(Math.abs(met.t - 1)).toBeLessThan(1e-9);
      near(met.normal, normalize(normal));
      expect(met.front).toBe(true);
    }
  });
});
