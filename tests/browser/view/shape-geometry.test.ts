import type { BufferGeometry } from 'three';
import { Vector3 } from 'three';
import { describe, expect, it } from 'vitest';
import {
  type Placement,
  placementFrom,
  worldDirection,
  worldPoint,
} from '../../../src/core/geometry/placement.ts';
import type { Shape } from '../../../src/core/geometry/shape.ts';
import { shapeGeometry, trianglesGeometry } from '../../../src/editor/view/shape-geometry.ts';

/** The drawing is made of triangles: closed forms of the exact shapes hold to what the chords cut off. */
const CHORDS = 0.01;
const PLACED = placementFrom([3, -2, 5], [20, 130, -40]);

interface Triangle {
  readonly corners: readonly [Vector3, Vector3, Vector3];
  readonly area: number;
}

function trianglesOf(geometry: BufferGeometry): Triangle[] {
  const positions = geometry.getAttribute('position');
  expect(geometry.index).toBeNull();
  return Array.from({ length: positions.count / 3 }, (_, i) => {
    const [a, b, c] = [0, 1, 2].map((k) => new Vector3().fromBufferAttribute(positions, 3 * i + k)) as [
      Vector3,
      Vector3,
      Vector3,
    ];
    return { corners: [a, b, c], area: b.clone().sub(a).cross(c.clone().sub(a)).length() / 2 };
  });
}

function areaOf(geometry: BufferGeometry): number {
  return trianglesOf(geometry).reduce((sum, triangle) => sum + triangle.area, 0);
}

function localOf(placement: Placement, point: Vector3): Vector3 {
  const d = point.clone().sub(new Vector3(...placement.origin_m));
  return new Vector3(
    d.dot(new Vector3(...placement.x)),
    d.dot(new Vector3(...placement.y)),
    d.dot(new Vector3(...placement.z)),
  );
}

type Drawn = Exclude<Shape, { kind: 'triangle' }>;

describe('areas of what is drawn (derived: closed forms)', () => {
  const panel = { kind: 'panel', placement: PLACED, halfSize_m: [4, 1.5] } as const;
  const cases: readonly (readonly [string, Drawn, number])[] = [
    ['box', { kind: 'box', placement: PLACED, halfSize_m: [1, 2, 3] }, 2 * (2 * 4 + 4 * 6 + 2 * 6)],
    [
      'cylinder with its ends',
      { kind: 'cylinder', placement: PLACED, radius_m: 0.7, halfHeight_m: 1.1 },
      2 * Math.PI * 0.7 * 2.2 + 2 * Math.PI * 0.49,
    ],
    ['sphere', { kind: 'sphere', centre_m: [1, 2, 3], radius_m: 1.3 }, 4 * Math.PI * 1.69],
    [
      'capsule',
      { kind: 'capsule', placement: PLACED, radius_m: 0.4, halfLength_m: 0.8 },
      4 * Math.PI * 0.16 + 2 * Math.PI * 0.4 * 1.6,
    ],
    ['panel', { ...panel, openings: [] }, 24],
    [
      'panel with two windows and a door down to its lower edge',
      {
        ...panel,
        openings: [
          { left_m: -3, bottom_m: 0, right_m: -2, top_m: 1 },
          { left_m: -1, bottom_m: 0, right_m: 0.5, top_m: 1 },
          { left_m: 1, bottom_m: -1.5, right_m: 2.2, top_m: 0.6 },
        ],
      },
      24 - 1 - 1.5 - 1.2 * 2.1,
    ],
    [
      'panel with doors side by side at its end, from edge to edge',
      {
        ...panel,
        openings: [
          { left_m: 2, bottom_m: -1.5, right_m: 3, top_m: 1.5 },
          { left_m: 3, bottom_m: -1.5, right_m: 4, top_m: 1.5 },
        ],
      },
      24 - 6,
    ],
    [
      'panel with two rounded corners',
      { ...panel, openings: [], topRadius_m: 0.5 },
      24 - (2 - Math.PI / 2) * 0.25,
    ],
    [
      'arc of a third of a turn',
      { kind: 'arc', placement: PLACED, radius_m: 0.6, halfHeight_m: 5, from_deg: -30, to_deg: 90 },
      (2 * Math.PI * 0.6 * 10) / 3,
    ],
    [
      'arc through 360',
      { kind: 'arc', placement: PLACED, radius_m: 0.6, halfHeight_m: 5, from_deg: 300, to_deg: 30 },
      (2 * Math.PI * 0.6 * 10) / 4,
    ],
  ];

  it.each(cases)('%s', (_, shape, area) => {
    expect(Math.abs(areaOf(shapeGeometry(shape)) / area - 1)).toBeLessThan(CHORDS);
  });
});

describe('places of what is drawn', () => {
  it('an opening is open: no triangle reaches into it', () => {
    const openings = [
      { left_m: -3, bottom_m: 0, right_m: -2, top_m: 1 },
      { left_m: 1, bottom_m: -1.5, right_m: 2.2, top_m: 0.6 },
    ];
    const geometry = shapeGeometry({ kind: 'panel', placement: PLACED, halfSize_m: [4, 1.5], openings });
    for (const { corners, area } of trianglesOf(geometry)) {
      if (area < 1e-9) continue;
      const middle = localOf(PLACED, corners[0].clone().add(corners[1]).add(corners[2]).divideScalar(3));
      expect(Math.abs(middle.z)).toBeLessThan(1e-5);
      for (const { left_m, right_m, bottom_m, top_m } of openings) {
        const inside = middle.x > left_m && middle.x < right_m && middle.y > bottom_m && middle.y < top_m;
        expect(inside).toBe(false);
      }
    }
  });

  it('an arc goes from its one angle to its other, from local +x toward local +z', () => {
    const [from_deg, to_deg] = [20, 100];
    const geometry = shapeGeometry({
      kind: 'arc',
      placement: PLACED,
      radius_m: 2,
      halfHeight_m: 1,
      from_deg,
      to_deg,
    });
    const angles = trianglesOf(geometry).flatMap(({ corners }) =>
      corners.map((corner) => {
        const { x, z } = localOf(PLACED, corner);
        expect(Math.hypot(x, z)).toBeCloseTo(2, 4);
        return (Math.atan2(z, x) * 180) / Math.PI;
      }),
    );
    expect(Math.min(...angles)).toBeCloseTo(from_deg, 3);
    expect(Math.max(...angles)).toBeCloseTo(to_deg, 3);
  });

  it("a box's corners are those of its placement", () => {
    const geometry = shapeGeometry({ kind: 'box', placement: PLACED, halfSize_m: [1, 2, 3] });
    const corner = new Vector3(...worldPoint(PLACED, [1, -2, 3]));
    const nearest = Math.min(
      ...trianglesOf(geometry).flatMap((t) => t.corners.map((p) => p.distanceTo(corner))),
    );
    expect(nearest).toBeLessThan(1e-5);
  });

  it("a cylinder's axis is its local y", () => {
    const geometry = shapeGeometry({ kind: 'cylinder', placement: PLACED, radius_m: 0.2, halfHeight_m: 4 });
    const axis = new Vector3(...worldDirection(PLACED, [0, 1, 0]));
    const reach = trianglesOf(geometry).flatMap((t) =>
      t.corners.map((p) =>
        p
          .clone()
          .sub(new Vector3(...PLACED.origin_m))
          .dot(axis),
      ),
    );
    expect(Math.max(...reach)).toBeCloseTo(4, 4);
    expect(Math.min(...reach)).toBeCloseTo(-4, 4);
  });

  it('a triangle stands where it is, its front where its corners run counter-clockwise', () => {
    const geometry = trianglesGeometry([
      { kind: 'triangle', a_m: [0, 0, 0], b_m: [2, 0, 0], c_m: [0, 3, 0] },
    ]);
    expect(areaOf(geometry)).toBeCloseTo(3, 6);
    expect(geometry.getAttribute('normal').getZ(0)).toBeCloseTo(1, 6);
  });
});
