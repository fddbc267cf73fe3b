import { describe, expect, it } from 'vitest';
import { placementFrom, worldPoint } from '../../../src/core/geometry/placement.ts';
import { distance, dot, normalize, subtract, type Vec3 } from '../../../src/core/math/vec3.ts';
import { sphereMirror, tubeMirror, tubeOf } from '../../../src/core/mirror/round-mirror.ts';
import { randomStream } from '../geometry/support/random.ts';
import { direction, somewhere } from './support/mirror-scene.ts';

const SEED = 31;

/** The least of a function of two variables by ever finer grids about the best so far. */
function leastOnGrid(f: (a: number, b: number) => number, a0: number, b0: number, ra: number, rb: number) {
  let [a, b, spanA, spanB] = [a0, b0, ra, rb];
  for (let level = 0; level < 40; level++) {
    let best = Number.POSITIVE_INFINITY;
    let [nextA, nextB] = [a, b];
    const n = level === 0 ? 120 : 6;
    for (let i = -n; i <= n; i++)
      for (let j = -n; j <= n; j++) {
        const value = f(a + (i * spanA) / n, b + (j * spanB) / n);
        if (value < best) [best, nextA, nextB] = [value, a + (i * spanA) / n, b + (j * spanB) / n];
      }
    [a, b] = [nextA, nextB];
    spanA *= level === 0 ? 2 / n : 0.5;
    spanB *= level === 0 ? 2 / n : 0.5;
  }
  return { a, b };
}

const way = (eye: Vec3, q: Vec3, s: Vec3) => distance(eye, q) + distance(q, s);

/** How far a place is from obeying the law of reflection: the difference of both sines, as vectors along the surface. */
function lawBroken(eye: Vec3, q: Vec3, s: Vec3, n: Vec3): number {
  const [a, b] = [normalize(subtract(eye, q)), normalize(subtract(s, q))];
  const sum: Vec3 = [a[0] + b[0], a[1] + b[1], a[2] + b[2]];
  const along = dot(sum, n);
  return Math.hypot(sum[0] - along * n[0], sum[1] - along * n[1], sum[2] - along * n[2]);
}

describe('spheres as mirrors', () => {
  it('mirror where the way is shortest, by brute force, in 60 random set-ups', () => {
    const random = randomStream(SEED);
    let [found, worst] = [0, 0];
    for (let i = 0; i < 60; i++) {
      const centre = somewhere(random, 1);
      const R = 0.1 + random();
      const [eye, s] = [somewhere(random, 6), somewhere(random, 6)];
      if (distance(eye, centre) < 1.1 * R || distance(s, centre) < 1.1 * R) continue;
      const mirror = sphereMirror(centre, R, () => true, 0);
      const [q] = mirror.mirrored(eye, s);
      const at = (theta: number, phi: number): Vec3 => [
        centre[0] + R * Math.cos(theta) * Math.cos(phi),
        centre[1] + R * Math.sin(theta),
        centre[2] + R * Math.cos(theta) * Math.sin(phi),
      ];
      const least = leastOnGrid((t, p) => way(eye, at(t, p), s), 0, 0, Math.PI / 2, Math.PI);
      const brute = at(least.a, least.b);
      const n = normalize(subtract(brute, centre));
      // derived: where the straight line is not cut off, the shortest way does not bounce: no image there
      const bounces = dot(subtract(eye, brute), n) > 1e-3 && dot(subtract(s, brute), n) > 1e-3;
      if (!bounces) continue;
      found++;
      expect(q, `set-up ${i}`).toBeDefined();
      worst = Math.max(worst, distance(q!.point_m, brute));
      expect(lawBroken(eye, q!.point_m, s, q!.normal)).toBeLessThan(1e-9);
    }
    expect(found).toBeGreaterThan(40);
    // A minimum is flat: the grid finds it to the root of rounding, not closer.
    expect(worst).toBeLessThan(1e-5);
  });

  it('mirror in the line of the centre what stands behind the eye, and nothing that they hide', () => {
    const mirror = sphereMirror([0, 0, 0], 1, () => true, 0);
    expect(mirror.mirrored([3, 0, 0], [5, 0, 0])[0]!.point_m).toEqual([1, 0, 0]);
    expect(mirror.mirrored([3, 0, 0], [-3, 0.1, 0])).toHaveLength(0);
    expect(mirror.mirrored([0.5, 0, 0], [3, 0, 0])).toHaveLength(0);
  });

  it('bring close together what is mirrored: half the radius behind, for what is far and straight', () => {
    // derived: a distant thing at a small angle ε mirrors at ε/2 round the centre, (d − R)/d small
    const mirror = sphereMirror([0, 0, 0], 0.5, () => true, 0);
    const far = 1e6;
    const [q] = mirror.mirrored([far, 0, 0], [far * Math.cos(0.02), far * Math.sin(0.02), 0]);
    expect(q!.point_m[1]).toBeCloseTo(0.5 * Math.sin(0.01), 8);
  });

  it('can be walked on', () => {
    const mirror = sphereMirror([0, 0, 0], 2, () => true, 0);
    const from = { point_m: [2, 0, 0] as Vec3, normal: [1, 0, 0] as Vec3, part: 0, within: true };
    const to = mirror.walk(from, [0, 1, 0], Math.PI);
    expect(distance(to.point_m, [0, 2, 0])).toBeLessThan(1e-12);
  });
});

describe('tubes as mirrors', () => {
  it('mirror where the way is shortest, by brute force, in 60 random set-ups', () => {
    const random = randomStream(SEED + 1);
    let [found, worst] = [0, 0];
    for (let i = 0; i < 60; i++) {
      const placement = placementFrom(somewhere(random, 1), [
        360 * random(),
        360 * random(),
        360 * random(),
      ] as unknown as Vec3);
      const R = 0.1 + random();
      const tube = tubeOf({ kind: 'cylinder', placement, radius_m: R, halfHeight_m: 20 })!;
      const [eye, s] = [somewhere(random, 6), somewhere(random, 6)];
      const at = (phi: number, y: number) => worldPoint(placement, [R * Math.cos(phi), y, R * Math.sin(phi)]);
      const outside = (p: Vec3) => {
        const d = subtract(p, placement.origin_m);
        return Math.hypot(dot(d, placement.x), dot(d, placement.z)) > 1.1 * R;
      };
      if (!outside(eye) || !outside(s)) continue;
      const least = leastOnGrid((p, y) => way(eye, at(p, y), s), 0, 0, Math.PI, 12);
      const brute = at(least.a, least.b);
      const n = normalize(subtract(brute, worldPoint(placement, [0, least.b, 0])));
      if (!(dot(subtract(eye, brute), n) > 1e-3 && dot(subtract(s, brute), n) > 1e-3)) continue;
      found++;
      const [q] = tubeMirror(tube, 0).mirrored(eye, s);
      expect(q, `set-up ${i}`).toBeDefined();
      worst = Math.max(worst, distance(q!.point_m, brute));
      expect(lawBroken(eye, q!.point_m, s, q!.normal)).toBeLessThan(1e-9);
    }
    expect(found).toBeGreaterThan(35);
    expect(worst).toBeLessThan(1e-5);
  });

  it('mirror inside too where they are open: as often as the law of reflection is met', () => {
    const random = randomStream(SEED + 2);
    let most = 0;
    for (let i = 0; i < 80; i++) {
      const placement = placementFrom([0, 0, 0], [90 * random(), 360 * random(), 0]);
      const tube = tubeOf({
        kind: 'arc',
        placement,
        radius_m: 1,
        halfHeight_m: 5,
        from_deg: 20,
        to_deg: 340,
      })!;
      const inside = (): Vec3 => {
        const [r, turn, y] = [0.9 * Math.sqrt(random()), 2 * Math.PI * random(), 2 * random() - 1];
        return worldPoint(placement, [r * Math.cos(turn), y, r * Math.sin(turn)]);
      };
      const [eye, s] = [inside(), inside()];
      const images = tubeMirror(tube, 0)
        .mirrored(eye, s)
        .filter((q) => q.within);
      for (const q of images) {
        expect(lawBroken(eye, q.point_m, s, q.normal)).toBeLessThan(1e-9);
        expect(dot(q.normal, subtract(eye, q.point_m))).toBeGreaterThan(0);
        expect(distance(q.point_m, worldPoint(placement, [0, 0, 0]))).toBeLessThan(5.1);
      }
      // Brute force: extremes of the way round the tube, each at its own best height (shortest along the axis).
      const n = 4000;
      const round = Array.from({ length: n + 1 }, (_, k) => {
        const phi = ((20 + (320 * k) / n) * Math.PI) / 180;
        const plane = (p: Vec3) => [dot(p, placement.x) - Math.cos(phi), dot(p, placement.z) - Math.sin(phi)];
        const [a, b] = [plane(eye), plane(s)];
        return Math.hypot(a[0]!, a[1]!) + Math.hypot(b[0]!, b[1]!);
      });
      let extremes = 0;
      for (let k = 1; k < n; k++)
        if ((round[k]! - round[k - 1]!) * (round[k + 1]! - round[k]!) < 0) extremes++;
      expect(images.length, `set-up ${i}`).toBe(extremes);
      most = Math.max(most, images.length);
    }
    // published: up to four images in a concave circle (Alhazen's problem)
    expect(most).toBe(4);
  });

  it('end where they end', () => {
    const placement = placementFrom([0, 0, 0]);
    const arc = tubeMirror(
      tubeOf({ kind: 'arc', placement, radius_m: 1, halfHeight_m: 1, from_deg: 0, to_deg: 90 })!,
      0,
    );
    const seen = (eye: Vec3, s: Vec3) => arc.mirrored(eye, s)[0]!;
    // derived: by symmetry at 45°, at half height
    const there = seen([3, 0, 2], [2, 1, 3]);
    expect(there.within).toBe(true);
    expect(distance(there.point_m, [Math.SQRT1_2, 0.5, Math.SQRT1_2])).toBeLessThan(1e-12);
    expect(seen([3, 2, 2], [2, 2, 3]).within).toBe(false);
    expect(seen([3, 0, -2], [2, 0, -3]).within).toBe(false);
    // derived: clamped to the edge
    const kept = arc.nearestWithin([3, 2, 2], [2, 2, 3], seen([3, 2, 2], [2, 2, 3]));
    expect(distance(kept.point_m, [Math.SQRT1_2, 1, Math.SQRT1_2])).toBeLessThan(1e-12);
    const further = arc.walk(there, [0, 1, 0], 0.3);
    expect(distance(further.point_m, [Math.SQRT1_2, 0.8, Math.SQRT1_2])).toBeLessThan(1e-12);
  });

  it('are the sides of cylinders, the middles of capsules and arcs', () => {
    const placement = placementFrom([0, 0, 0]);
    expect(tubeOf({ kind: 'capsule', placement, radius_m: 0.2, halfLength_m: 0.7 })).toMatchObject({
      radius_m: 0.2,
      halfHeight_m: 0.7,
      open: false,
    });
    expect(tubeOf({ kind: 'sphere', centre_m: direction(randomStream(1)), radius_m: 1 })).toBeNull();
  });
});
