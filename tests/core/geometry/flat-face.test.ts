import { describe, expect, it } from 'vitest';
import { faceRectangle_m2, flatFaces } from '../../../src/core/geometry/flat-face.ts';
import { placementFrom } from '../../../src/core/geometry/placement.ts';
import { cross, dot, subtract } from '../../../src/core/math/vec3.ts';

const placement = placementFrom([1, 2, 3], [10, 20, 30]);

describe('flat faces of shapes', () => {
  it('of a box are its six sides, looking out', () => {
    const faces = flatFaces({ kind: 'box', placement, halfSize_m: [1, 2, 3] });
    expect(faces).toHaveLength(6);
    // derived: 2·(2·4 + 2·6 + 4·6)
    expect(faces.reduce((sum, face) => sum + faceRectangle_m2(face), 0)).toBeCloseTo(88, 9);
    for (const { centre_m, u, v, n, oneSided } of faces) {
      expect(oneSided).toBe(true);
      const out = subtract(centre_m, placement.origin_m);
      expect(dot(out, n)).toBeGreaterThan(0.99);
      expect(dot(out, u)).toBeCloseTo(0, 12);
      expect(dot(out, v)).toBeCloseTo(0, 12);
      expect(Math.abs(dot(cross(u, v), n))).toBeCloseTo(1, 12);
    }
  });

  it('of a panel is itself, from both sides; round things and triangles have none', () => {
    const [face, ...others] = flatFaces({ kind: 'panel', placement, halfSize_m: [1, 2], openings: [] });
    expect(others).toHaveLength(0);
    expect(face).toMatchObject({
      centre_m: [1, 2, 3],
      n: placement.z,
      halfU_m: 1,
      halfV_m: 2,
      oneSided: false,
    });
    expect(flatFaces({ kind: 'sphere', centre_m: [0, 0, 0], radius_m: 1 })).toHaveLength(0);
    expect(flatFaces({ kind: 'triangle', a_m: [0, 0, 0], b_m: [1, 0, 0], c_m: [0, 1, 0] })).toHaveLength(0);
  });
});
