import { describe, expect, it } from 'vitest';
import type { Part } from '../../../src/core/geometry/shape.ts';
import { add, distance, scale, type Vec3 } from '../../../src/core/math/vec3.ts';
import { findGlints } from '../../../src/core/mirror/find-glints.ts';
import { meshMirror } from '../../../src/core/mirror/mesh-mirror.ts';
import { sphereMirror } from '../../../src/core/mirror/round-mirror.ts';
import { isotropic, lampAt, opaque } from '../../support/light-models.ts';
import { randomStream } from '../geometry/support/random.ts';
import { cameraAt, direction, sceneMaker } from './support/mirror-scene.ts';

const SEED = 47;

function triangles(corners: readonly (readonly [Vec3, Vec3, Vec3])[]): Part[] {
  return corners.map(([a_m, b_m, c_m]) => opaque({ kind: 'triangle', a_m, b_m, c_m }));
}

/** A sphere in `n` rings and 2n meridians, facing out. */
function ball(R: number, n: number): Part[] {
  const at = (i: number, j: number): Vec3 => {
    const [t, p] = [(Math.PI * i) / n, (Math.PI * (j % (2 * n))) / n];
    return [R * Math.sin(t) * Math.cos(p), R * Math.cos(t), -R * Math.sin(t) * Math.sin(p)];
  };
  const found: [Vec3, Vec3, Vec3][] = [];
  for (let i = 0; i < n; i++)
    for (let j = 0; j < 2 * n; j++) {
      if (i > 0) found.push([at(i, j), at(i + 1, j), at(i, j + 1)]);
      if (i < n - 1) found.push([at(i, j + 1), at(i + 1, j), at(i + 1, j + 1)]);
    }
  return triangles(found);
}

const all = (parts: readonly Part[]) => parts.map((_, i) => i);

describe('meshes as mirrors', () => {
  it('mirror as the smooth sphere that they stand for, within a facet, in 60 random set-ups', () => {
    const random = randomStream(SEED);
    const parts = ball(1, 40);
    const mesh = meshMirror(parts, all(parts));
    const smooth = sphereMirror([0, 0, 0], 1, () => true, 0);
    let worst = 0;
    for (let i = 0; i < 60; i++) {
      const eye = scale(direction(random), 2 + 3 * random());
      const s = add(eye, scale(direction(random), 1 + random()));
      const expected = smooth.mirrored(eye, s)[0];
      if (!expected) continue;
      const found = mesh.mirrored(eye, s).map((q) => distance(q.point_m, expected.point_m));
      expect(found.length, `set-up ${i}`).toBeGreaterThan(0);
      worst = Math.max(worst, Math.min(...found));
    }
    // derived: facets are up to π/40 = 0.08 m long
    expect(worst).toBeLessThan(0.08);
  });

  it('mirror exactly where they are flat, on the edge between two triangles too, and not past the border', () => {
    const parts = triangles([
      [
        [-1, -1, 0],
        [1, -1, 0],
        [1, 1, 0],
      ],
      [
        [-1, -1, 0],
        [1, 1, 0],
        [-1, 1, 0],
      ],
    ]);
    const mesh = meshMirror(parts, all(parts));
    const seen = (eye: Vec3, s: Vec3) => mesh.mirrored(eye, s).map((q) => q.point_m);
    // derived: mirror image in the plane z = 0
    expect(distance(seen([-1, 0.2, 1], [2, 0.2, 2])[0]!, [0, 0.2, 0])).toBeLessThan(1e-12);
    expect(seen([-1, 0.2, 1], [2, 0.2, 2])).toHaveLength(1);
    const onEdge = seen([-1, 0, 1], [1, 0, 1]);
    expect(onEdge.length).toBeGreaterThan(0);
    expect(distance(onEdge[0]!, [0, 0, 0])).toBeLessThan(1e-9);
    expect(seen([-1, 3, 1], [1, 3, 1])).toHaveLength(0);
    expect(seen([-1, 0, 1], [1, 0, -1])).toHaveLength(0);
  });

  it('do not take the edge of a cube for a rounded one', () => {
    const quad = (a: Vec3, b: Vec3, c: Vec3, d: Vec3) => [[a, b, c] as const, [a, c, d] as const];
    const parts = triangles([
      ...quad([0, 0, 0], [0, 0, 2], [0, 2, 2], [0, 2, 0]),
      ...quad([0, 0, 0], [0, 2, 0], [-2, 2, 0], [-2, 0, 0]),
    ]);
    // derived: seen and lit from before the corner, both walls mirror past it
    expect(meshMirror(parts, all(parts)).mirrored([1, 1, -3], [3, 1, -1])).toHaveLength(0);
  });

  it('are marked approximate, and their image is as bright as that of a plane', () => {
    const scene = sceneMaker();
    const lamp = lampAt([2, 0.3, 3], [0, 0.3, 0], isotropic(1e4), { shape: 'disc', radius_m: 0.05 });
    const view = { camera: cameraAt([-2, 0.3, 3], [0, 0.3, 0]), zero_cd_m2: 1 };
    const parts = triangles([
      [
        [-1, -1, 0],
        [1, -1, 0],
        [0, 1, 0],
      ],
    ]);
    const [glint] = findGlints(scene(parts, [lamp]), view);
    expect(glint!.approximate).toBe(true);
    expect(distance(glint!.point_m, [0, 0.3, 0])).toBeLessThan(1e-9);
    // derived: F·I/A
    const L = (glint!.reflectance * 1e4) / (Math.PI * 0.05 ** 2);
    expect(Math.abs(Math.log2(glint!.luminance_cd_m2 / L))).toBeLessThan(0.15);
  });
});
