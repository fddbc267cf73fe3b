import { describe, expect, it } from 'vitest';
import { buildGeometry } from '../../../src/core/geometry/geometry.ts';
import { meshTriangles } from '../../../src/core/geometry/mesh.ts';
import { placementFrom, WORLD } from '../../../src/core/geometry/placement.ts';
import { nearestHit } from '../../../src/core/geometry/ray-query.ts';
import { newHit } from '../../../src/core/geometry/ray-shape.ts';
import { triangleNormal } from '../../../src/core/geometry/shape-record.ts';
import { add, dot, length, normalize, scale, subtract, type Vec3 } from '../../../src/core/math/vec3.ts';
import { randomStream } from './support/random.ts';
import { randomPoint, uniformOf } from './support/random-scene.ts';

/** A unit ball of triangles: an icosahedron, its faces parted in four and pushed out `steps` times. */
function icosphere(steps: number): { positions: number[]; indices: number[] } {
  const g = (1 + Math.sqrt(5)) / 2;
  const vertices: Vec3[] = (
    [
      [-1, g, 0],
      [1, g, 0],
      [-1, -g, 0],
      [1, -g, 0],
      [0, -1, g],
      [0, 1, g],
      [0, -1, -g],
      [0, 1, -g],
      [g, 0, -1],
      [g, 0, 1],
      [-g, 0, -1],
      [-g, 0, 1],
    ] as const
  ).map(normalize);
  let faces: (readonly [number, number, number])[] = [
    [0, 11, 5],
    [0, 5, 1],
    [0, 1, 7],
    [0, 7, 10],
    [0, 10, 11],
    [1, 5, 9],
    [5, 11, 4],
    [11, 10, 2],
    [10, 7, 6],
    [7, 1, 8],
    [3, 9, 4],
    [3, 4, 2],
    [3, 2, 6],
    [3, 6, 8],
    [3, 8, 9],
    [4, 9, 5],
    [2, 4, 11],
    [6, 2, 10],
    [8, 6, 7],
    [9, 8, 1],
  ];
  for (let step = 0; step < steps; step++) {
    const middles = new Map<string, number>();
    const middle = (i: number, j: number): number => {
      const key = i < j ? `${i} ${j}` : `${j} ${i}`;
      const known = middles.get(key);
      if (known !== undefined) return known;
      vertices.push(normalize(add(vertices[i]!, vertices[j]!)));
      middles.set(key, vertices.length - 1);
      return vertices.length - 1;
    };
    faces = faces.flatMap(([a, b, c]) => {
      const [ab, bc, ca] = [middle(a, b), middle(b, c), middle(c, a)];
      return [
        [a, ab, ca],
        [b, bc, ab],
        [c, ca, bc],
        [ab, bc, ca],
      ] as const;
    });
  }
  return { positions: vertices.flat(), indices: faces.flat() };
}

describe('a closed mesh', () => {
  const ball = icosphere(3);
  const place = placementFrom([3, -2, 7], [20, 50, -70]);
  const { triangles, droppedCount } = meshTriangles(ball, place, 2);
  const geometry = buildGeometry(
    triangles.map((shape) => ({ shape, substance: { kind: 'material', index: 0 }, owner: 0 })),
  );

  it('has all its triangles facing outward', () => {
    expect([triangles.length, droppedCount]).toEqual([1280, 0]);
    for (const { a_m, b_m, c_m } of triangles)
      expect(dot(triangleNormal(a_m, b_m, c_m), subtract(a_m, place.origin_m))).toBeGreaterThan(0);
  });

  it('lets no ray through: at every edge, at every vertex, from within and from without', () => {
    const uniform = uniformOf(randomStream(1234));
    const hit = newHit();
    let rays = 0;
    let leaks = 0;
    const tryRay = (o: Vec3, through: Vec3, front: boolean) => {
      rays++;
      const d = subtract(through, o);
      if (!nearestHit(geometry, ...o, ...d, 0, Number.POSITIVE_INFINITY, hit) || hit.front !== front) leaks++;
    };
    for (const { a_m, b_m, c_m } of triangles)
      for (const [p, q] of [
        [a_m, b_m],
        [b_m, c_m],
        [c_m, a_m],
      ] as const) {
        const s = uniform(0, 1);
        for (const point of [p, add(scale(p, 1 - s), scale(q, s)), scale(add(p, q), 0.5)]) {
          tryRay(add(place.origin_m, randomPoint(uniform, 1)), point, false);
          tryRay(place.origin_m, point, false);
          // From outside, well within the outline: through the edge toward somewhere near the middle.
          const inside = add(place.origin_m, randomPoint(uniform, 0.8));
          const outward = normalize(subtract(point, inside));
          tryRay(add(inside, scale(outward, uniform(5, 5000))), inside, true);
        }
      }
    expect(rays).toBe(1280 * 27);
    expect(leaks).toBe(0);
  });
});

describe('mesh arrays', () => {
  const square = { positions: [0, 0, 0, 1, 0, 0, 1, 1, 0, 0, 1, 0], indices: [0, 1, 2, 0, 2, 3] };

  it('are scaled, then placed', () => {
    const { triangles } = meshTriangles(square, placementFrom([10, 0, 0], [0, 90, 0]), 0.01);
    // derived: x goes to −z under heading 90.
    expect(length(subtract(triangles[0]!.b_m, [10, 0, -0.01]))).toBeLessThan(1e-15);
    expect(length(subtract(triangles[0]!.c_m, [10, 0.01, -0.01]))).toBeLessThan(1e-15);
  });

  it('need no indices', () => {
    expect(meshTriangles({ positions: [0, 0, 0, 1, 0, 0, 0, 1, 0] }, WORLD, 1).triangles).toHaveLength(1);
  });

  it('lose the triangles without area, and say how many', () => {
    const { triangles, droppedCount } = meshTriangles(
      {
        positions: [0, 0, 0, 1, 0, 0, 2, 0, 0, 0, 1, 0],
        indices: [0, 1, 2, 0, 0, 3, 0, 1, 3, 3, 3, 3],
      },
      WORLD,
      1,
    );
    expect([triangles.length, droppedCount]).toEqual([1, 3]);
    expect(meshTriangles(square, WORLD, 0)).toEqual({ triangles: [], droppedCount: 2 });
  });

  it('keep small and slender triangles', () => {
    const sliver = { positions: [0, 0, 0, 1, 0, 0, 0.5, 1e-6, 0] };
    expect(meshTriangles(sliver, WORLD, 1e-3).triangles).toHaveLength(1);
  });

  it('keep facing outward when mirrored', () => {
    const ball = icosphere(0);
    for (const { a_m, b_m, c_m } of meshTriangles(ball, WORLD, -1).triangles)
      expect(dot(triangleNormal(a_m, b_m, c_m), a_m)).toBeGreaterThan(0);
  });

  it.each([
    [{ positions: [0, 0, 0, 1] }, 1, /4 coordinates: expected three/],
    [{ positions: [0, 0, 0, 1, 0, 0] }, 1, /2 corners: expected three/],
    [{ ...square, indices: [0, 1] }, 1, /2 corners/],
    [{ ...square, indices: [0, 1, 4] }, 1, /Index 2 .* vertex 4: .* 0 to 3/],
    [{ ...square, indices: [0, -1, 2] }, 1, /Index 1 .* vertex -1/],
    [{ ...square, indices: [0, 0.5, 2] }, 1, /Index 1 .* vertex 0.5/],
    [{ positions: [0, Number.NaN, 0, 1, 0, 0, 0, 1, 0] }, 1, /Vertex 0 .* NaN/],
    [square, Number.NaN, /scale NaN/],
  ])('at fault are refused: %j × %d', (mesh, scale_m, message) => {
    expect(() => meshTriangles(mesh, WORLD, scale_m)).toThrow(message);
  });
});
