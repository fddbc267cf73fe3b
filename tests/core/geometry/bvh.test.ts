import { describe, expect, it } from 'vitest';
import { buildHierarchy, type Hierarchy, LARGEST_LEAF } from '../../../src/core/geometry/bvh.ts';
import { buildGeometry } from '../../../src/core/geometry/geometry.ts';
import { WORLD } from '../../../src/core/geometry/placement.ts';
import { nearestHit, transmittance } from '../../../src/core/geometry/ray-query.ts';
import { newHit } from '../../../src/core/geometry/ray-shape.ts';
import type { Part, Shape } from '../../../src/core/geometry/shape.ts';
import { randomStream } from './support/random.ts';

const material = { kind: 'material', index: 0 } as const;
const parts = (shapes: readonly Shape[]): Part[] =>
  shapes.map((shape) => ({ shape, substance: material, owner: 0 }));

/** Walks the tree by its links and checks that it is one: every shape in one small leaf, inside every box above it. */
function expectSound(hierarchy: Hierarchy, bounds: Float64Array, shapeCount: number): { deepest: number } {
  const { skip, first, count, order } = hierarchy;
  const nodes = skip.length;
  const seen = new Set<number>();
  let astray = 0;
  // Nodes still open around the current one: a node is over when its skip is reached.
  const open: number[] = [];
  let deepest = 0;
  for (let node = 0; node < nodes; node++) {
    while (open.length > 0 && skip[open.at(-1)!]! <= node) open.pop();
    if (skip[node]! <= node || skip[node]! > (open.length > 0 ? skip[open.at(-1)!]! : nodes)) astray++;
    open.push(node);
    deepest = Math.max(deepest, open.length);
    expect(count[node]!).toBeLessThanOrEqual(LARGEST_LEAF);
    for (let i = first[node]!; i < first[node]! + count[node]!; i++) {
      const shape = order[i]!;
      seen.add(shape);
      for (const above of open)
        for (let k = 0; k < 3; k++) {
          if (hierarchy.bounds[6 * above + k]! >= bounds[6 * shape + k]!) astray++;
          if (hierarchy.bounds[6 * above + 3 + k]! <= bounds[6 * shape + 3 + k]!) astray++;
        }
    }
    if (count[node]! > 0 && skip[node] !== node + 1) astray++;
  }
  expect(astray).toBe(0);
  expect(seen.size).toBe(shapeCount);
  return { deepest };
}

function pointBounds(points: readonly (readonly [number, number, number])[]): Float64Array {
  return Float64Array.from(points.flatMap((p) => [...p, ...p]));
}

describe('the hierarchy', () => {
  it('of nothing answers every ray', () => {
    const geometry = buildGeometry([]);
    expect(geometry.hierarchy.skip.length).toBe(0);
    expect(nearestHit(geometry, 0, 0, 0, 0, 0, 1, 0, 9, newHit())).toBe(false);
    expect(transmittance(geometry, 0, 0, 0, 0, 0, 1, 0, 9, new Float64Array())).toBe(1);
  });

  it.each([1, 2, 3, 4, 100])('of %i random shapes is sound', (n) => {
    const random = randomStream(n);
    const bounds = pointBounds(Array.from({ length: n }, () => [random(), random(), random()]));
    expectSound(buildHierarchy(bounds, n), bounds, n);
  });

  it('of shapes that coincide is sound and halves them', () => {
    const bounds = pointBounds(Array.from({ length: 5000 }, () => [1, 2, 3]));
    const { deepest } = expectSound(buildHierarchy(bounds, 5000), bounds, 5000);
    // derived: halving 5 000 to pairs takes ⌈log2 2 500⌉ = 12 steps below the root.
    expect(deepest).toBe(13);
  });

  it('of shapes in a row, in a plane, and ever farther apart is sound', () => {
    for (const point of [
      (i: number) => [i, 0, 0] as const,
      (i: number) => [i % 30, 5, Math.floor(i / 30)] as const,
      (i: number) => [1.5 ** i, 0, 0] as const,
    ]) {
      const bounds = pointBounds(Array.from({ length: 900 }, (_, i) => point(i)));
      expectSound(buildHierarchy(bounds, 900), bounds, 900);
    }
  });

  it('of many equal boxes finds the hit', () => {
    const box: Shape = { kind: 'box', placement: WORLD, halfSize_m: [1, 1, 1] };
    const hit = newHit();
    expect(nearestHit(buildGeometry(parts(Array(300).fill(box))), 0, 0, 5, 0, 0, -1, 0, 9, hit)).toBe(true);
    expect([hit.t, hit.shape]).toEqual([4, 0]);
  });

  it('of 100 000 triangles is built at once and finds each of them', () => {
    // A rolling field of 224 × 224 squares, two triangles each.
    const side = 224;
    const height = (i: number, j: number) => Math.sin(i / 9) * Math.cos(j / 13);
    const shapes: Shape[] = [];
    for (let i = 0; i < side; i++)
      for (let j = 0; j < side; j++) {
        const at = (u: number, v: number) => [u, height(u, v), v] as const;
        shapes.push(
          { kind: 'triangle', a_m: at(i, j), b_m: at(i, j + 1), c_m: at(i + 1, j) },
          { kind: 'triangle', a_m: at(i + 1, j), b_m: at(i, j + 1), c_m: at(i + 1, j + 1) },
        );
      }
    const start = performance.now();
    const geometry = buildGeometry(parts(shapes));
    // Well under a second by itself; the allowance is for a busy machine and catches only a wrong order of growth.
    expect(performance.now() - start).toBeLessThan(6000);
    expect(geometry.shapeCount).toBe(100_352);
    const random = randomStream(3);
    const hit = newHit();
    let lost = 0;
    for (let n = 0; n < 5000; n++) {
      const [i, j] = [Math.floor(random() * side), Math.floor(random() * side)];
      const found = nearestHit(geometry, i + 0.25, 9, j + 0.25, 0, -1, 0, 0, 20, hit);
      // derived: the near corner's triangle, and its plane's height there by the three corners.
      const y = 0.5 * height(i, j) + 0.25 * height(i, j + 1) + 0.25 * height(i + 1, j);
      if (!found || hit.shape !== 2 * (side * i + j) || Math.abs(9 - hit.t - y) > 1e-9 || !hit.front) lost++;
    }
    expect(lost).toBe(0);
  });
});

describe('geometry', () => {
  it('keeps substances, owners and openings by part', () => {
    const opening = { left_m: 0, bottom_m: 1, right_m: 2, top_m: 3 };
    const panel = (openings: readonly (typeof opening)[]): Shape => ({
      kind: 'panel',
      placement: WORLD,
      halfSize_m: [5, 5],
      openings,
    });
    const geometry = buildGeometry([
      { shape: panel([opening]), substance: { kind: 'pane', index: 4 }, owner: 7 },
      { shape: panel([]), substance: { kind: 'material', index: 2 }, owner: 8 },
      { shape: panel([opening, opening]), substance: { kind: 'material', index: 3 }, owner: 9 },
    ]);
    expect([...geometry.panes]).toEqual([4, -1, -1]);
    expect([...geometry.materials]).toEqual([-1, 2, 3]);
    expect([...geometry.owners]).toEqual([7, 8, 9]);
    expect([...geometry.openingStart]).toEqual([0, 1, 1, 3]);
    expect([...geometry.openings]).toEqual([0, 1, 2, 3, 0, 1, 2, 3, 0, 1, 2, 3]);
  });

  it('survives a structured clone', () => {
    const geometry = structuredClone(
      buildGeometry(parts([{ kind: 'sphere', centre_m: [0, 0, 0], radius_m: 1 }])),
    );
    const hit = newHit();
    expect(nearestHit(geometry, 0, 0, 5, 0, 0, -1, 0, 9, hit)).toBe(true);
    expect(hit.t).toBe(4);
  });

  it('refuses numbers that no shape can have, naming the shape', () => {
    const good: Shape = { kind: 'sphere', centre_m: [0, 0, 0], radius_m: 1 };
    expect(() => buildGeometry(parts([good, { ...good, radius_m: Number.NaN }]))).toThrow(
      /Shape 1 \(sphere\).*finite/,
    );
    expect(() => buildGeometry(parts([{ ...good, radius_m: -1 }]))).toThrow(/Shape 0 \(sphere\).*-1 m/);
    expect(() =>
      buildGeometry(
        parts([{ kind: 'triangle', a_m: [0, 0, 0], b_m: [1, 0, 0], c_m: [0, Number.POSITIVE_INFINITY, 0] }]),
      ),
    ).toThrow(/triangle.*finite/);
  });

  it('meets nothing in shapes without size', () => {
    const hit = newHit();
    for (const shape of [
      { kind: 'sphere', centre_m: [0, 0, 0], radius_m: 0 },
      { kind: 'cylinder', placement: WORLD, radius_m: 0, halfHeight_m: 1 },
      { kind: 'capsule', placement: WORLD, radius_m: 0, halfLength_m: 1 },
      { kind: 'arc', placement: WORLD, radius_m: 0, halfHeight_m: 1, from_deg: 0, to_deg: 90 },
      { kind: 'triangle', a_m: [0, 0, 0], b_m: [0, 0, 0], c_m: [0, 0, 0] },
    ] as const)
      expect(nearestHit(buildGeometry(parts([shape])), 0, 0, 5, 0, 0, -1, 0, 9, hit), shape.kind).toBe(false);
  });
});
