import { describe, expect, it } from 'vitest';
import { shapeBounds } from '../../../src/core/geometry/bounds.ts';
import { placementFrom } from '../../../src/core/geometry/placement.ts';
import type { Part, Shape } from '../../../src/core/geometry/shape.ts';
import { lampFrame } from '../../../src/core/lamps/lamp-frame.ts';
import { boundsOf } from '../../../src/editor/plan/drawing/viewport.ts';
import { beamAtHeight, beamOutline } from '../../../src/editor/plan/shapes/beam-outline.ts';
import { bodyOutline } from '../../../src/editor/plan/shapes/body-outline.ts';
import { focusLine, viewWedge } from '../../../src/editor/plan/shapes/camera-view.ts';
import { convexHull } from '../../../src/editor/plan/shapes/convex-hull.ts';
import { learnMeshes, meshOutline } from '../../../src/editor/plan/shapes/mesh-outline.ts';
import { ringPath } from '../../../src/editor/plan/shapes/path-data.ts';
import { pathTicks } from '../../../src/editor/plan/shapes/path-ticks.ts';
import { shapePoints } from '../../../src/editor/plan/shapes/shape-points.ts';
import type { Camera } from '../../../src/scene/schema/camera.ts';
import type { Solid } from '../../../src/scene/schema/solid.ts';

const ROUND = { c0_deg: 60, c90_deg: 60, mean_deg: 60 };

describe('a convex hull', () => {
  it('keeps the corners and drops what lies within or between', () => {
    const hull = convexHull([
      [0, 0],
      [2, 0],
      [1, 0],
      [2, 2],
      [1, 1],
      [0, 2],
    ]);
    expect(hull).toHaveLength(4);
    expect(new Set(hull.map(String))).toEqual(new Set(['0,0', '2,0', '2,2', '0,2']));
  });

  it('of points in a line is its two ends, of one point that point', () => {
    expect(
      convexHull([
        [0, 0],
        [1, 1],
        [3, 3],
      ]),
    ).toEqual([
      [0, 0],
      [3, 3],
    ]);
    expect(
      convexHull([
        [1, 2],
        [1, 2],
      ]),
    ).toEqual([[1, 2]]);
    expect(convexHull([])).toEqual([]);
  });
});

describe('outlines', () => {
  it('reach as far as the exact bounds of every shape', () => {
    const placement = placementFrom([3, 1, -2], [20, 35, -50]);
    const shapes: Shape[] = [
      { kind: 'box', placement, halfSize_m: [1, 0.5, 2] },
      { kind: 'cylinder', placement, radius_m: 0.7, halfHeight_m: 1.2 },
      { kind: 'sphere', centre_m: [1, 2, 3], radius_m: 0.4 },
      { kind: 'capsule', placement, radius_m: 0.3, halfLength_m: 0.9 },
      { kind: 'panel', placement, halfSize_m: [1.5, 0.8], openings: [], topRadius_m: 0.4 },
      { kind: 'arc', placement, radius_m: 1, halfHeight_m: 0.5, from_deg: 300, to_deg: 60 },
      { kind: 'triangle', a_m: [0, 0, 0], b_m: [1, 0, 2], c_m: [0, 3, 1] },
    ];
    for (const shape of shapes) {
      const exact = new Float64Array(6);
      shapeBounds(shape, exact, 0);
      const plan = boundsOf(shapePoints(shape, 'plan'))!;
      const side = boundsOf(shapePoints(shape, 'along-x'))!;
      // Circles are polygons of 32 sides: flat by at most 0.5 % of the radius.
      for (const [drawn, wanted] of [
        [plan.low_m[0], exact[0]],
        [plan.high_m[0], exact[3]],
        [plan.low_m[1], exact[2]],
        [plan.high_m[1], exact[5]],
        [-side.high_m[1], exact[1]],
        [-side.low_m[1], exact[4]],
      ] as const)
        expect(Math.abs(drawn - wanted!), shape.kind).toBeLessThan(0.006);
    }
  });

  it('of a vehicle show the windows of the near side in elevation and of all sides from above', () => {
    const run = { count: 2, first_m: 1, pitch_m: 2, width_m: 1, sill_m: 1, head_m: 2 };
    const vehicle: Solid = {
      id: 'van',
      shape: 'vehicle',
      material: 'gloss-white',
      position_m: [0, 0, 0],
      size_m: [6, 2.5, 2],
      windows: [
        { ...run, side: 'right', pane: 'clear-glass' },
        { ...run, side: 'left' },
      ],
    };
    const rings = (path: string) => path.split('Z').length - 1;
    const side = bodyOutline(vehicle, 'along-x');
    // The right side is at +z, where the elevation is seen from; its windows run from the front, at +x.
    expect(rings(side.panes)).toBe(2);
    expect(rings(side.openings)).toBe(0);
    expect(side.panes).toContain('2 -1');
    const plan = bodyOutline(vehicle, 'plan');
    expect(rings(plan.panes)).toBe(2);
    expect(rings(plan.openings)).toBe(2);
    expect(boundsOf(plan.points)).toEqual({ low_m: [-3, -1], high_m: [3, 1] });
  });

  it('are made once for every state of a body', () => {
    const ball: Solid = { id: 'b', shape: 'sphere', material: 'm', position_m: [0, 1, 0], radius_m: 1 };
    expect(bodyOutline(ball, 'plan')).toBe(bodyOutline(ball, 'plan'));
    expect(bodyOutline({ ...ball }, 'plan')).not.toBe(bodyOutline(ball, 'plan'));
  });

  it('are written to the millimetre', () => {
    expect(ringPath([[1.23456, -0.0001]])).toBe('M1.235 0Z');
    expect(ringPath([])).toBe('');
  });
});

describe('the outline of a mesh', () => {
  const mesh = {
    id: 'hull',
    shape: 'mesh' as const,
    material: 'm',
    file: 'hull.glb',
    position_m: [10, 0, 5] as [number, number, number],
  };
  const triangle = (a: number, b: number): Part => ({
    shape: { kind: 'triangle', a_m: [10 + a, 0, 5], b_m: [10, 2, 5 + b], c_m: [10, 0, 5] },
    substance: { kind: 'material', index: 0 },
    owner: 1,
  });
  const ball: Solid = { id: 'b', shape: 'sphere', material: 'm', position_m: [0, 1, 0], radius_m: 1 };

  it('is learnt from what the worker drew, and goes along wherever the mesh is dragged', () => {
    expect(meshOutline(mesh, 'plan')).toBeNull();
    const parts = [{ ...triangle(9, 9), owner: 0 }, triangle(3, 1), triangle(-1, 2)];
    learnMeshes([ball, mesh], { parts, surfaces: [], panes: [] }, 'plan');
    const { low_m, high_m } = boundsOf(meshOutline({ ...mesh, position_m: [0, 0, 0] }, 'plan')!.points)!;
    for (const [seen, wanted] of [
      [low_m[0], -1],
      [high_m[0], 3],
      [low_m[1], 0],
      [high_m[1], 2],
    ] as const)
      expect(seen).toBeCloseTo(wanted, 9);
    expect(meshOutline({ ...mesh, rotation_deg: [0, 10, 0] }, 'plan')).toBeNull();
  });
});

describe('a beam', () => {
  it('straight down is a circle of h·tan(half angle) on the ground', () => {
    const frame = lampFrame([2, 4, 1], [2, 0, 1]);
    const [ring, ...more] = beamAtHeight(frame, ROUND, 0, 50);
    expect(more).toEqual([]);
    expect(ring!.closed).toBe(true);
    // Derived: 4·tan 30° = 2.3094.
    for (const [x, z] of ring!.points) expect(Math.hypot(x - 2, z - 1)).toBeCloseTo(2.3094, 4);
  });

  it('at 45° is an ellipse from h·tan 15° to h·tan 75°', () => {
    const frame = lampFrame([0, 2, 0], [2, 0, 0]);
    const [ring] = beamAtHeight(frame, ROUND, 0, 50);
    const xs = ring!.points.map(([x]) => x);
    // Derived: 2·0.26795 and 2·3.73205.
    expect(Math.min(...xs)).toBeCloseTo(0.5359, 3);
    expect(Math.max(...xs)).toBeCloseTo(7.4641, 3);
  });

  it('level is one open line before the lamp, as far as is asked, and none on the plane of the lamp', () => {
    const frame = lampFrame([0, 2, 0], [10, 2, 0]);
    const lines = beamAtHeight(frame, ROUND, 0, 30);
    expect(lines).toHaveLength(1);
    expect(lines[0]!.closed).toBe(false);
    for (const [x, z] of lines[0]!.points) expect(Math.hypot(x, 2, z)).toBeLessThanOrEqual(30 + 1e-9);
    // Derived: the lowest edge meets the ground 2/tan 30° = 3.4641 m off.
    expect(Math.min(...lines[0]!.points.map(([x]) => x))).toBeCloseTo(3.4641, 3);
    expect(beamAtHeight(frame, ROUND, 2, 30)).toEqual([]);
  });

  it('as wide as it is across, and not turned where its two angles differ', () => {
    const frame = lampFrame([0, 4, 0], [0, 0, 0]);
    const [ring] = beamAtHeight(frame, { c0_deg: 90, c90_deg: 40, mean_deg: 65 }, 0, 50);
    const bounds = boundsOf(ring!.points)!;
    // C 0 is +x for a lamp that is aimed straight down. Derived: 4·tan 45°, 4·tan 20°.
    expect(bounds.high_m[0]).toBeCloseTo(4, 3);
    expect(bounds.high_m[1]).toBeCloseTo(1.4559, 3);
  });

  it('from the side begins at the lamp and spreads by its angle', () => {
    const frame = lampFrame([0, 2, 0], [5, 2, 0]);
    const outline = beamOutline(frame, ROUND, 10, 'plan');
    const bounds = boundsOf(outline)!;
    expect(bounds.low_m[0]).toBeCloseTo(0, 12);
    expect(bounds.high_m[1]).toBeCloseTo(10 * Math.sin(Math.PI / 6), 2);
  });
});

describe('a camera', () => {
  const camera: Camera = {
    id: 'a',
    position_m: [0, 1.5, 0],
    look_m: [0, 1.5, -8],
    sensor_mm: [36, 24],
    focal_mm: 36,
    fNumber: 4,
    shutter_s: 0.02,
    iso: 800,
    focus_m: 6,
  };

  it('sees as wide as its sensor is at its focal length', () => {
    const bounds = boundsOf(viewWedge(camera, 'plan'))!;
    // Derived: 10 m deep, 36 mm at 36 mm: 5 m to each side.
    expect(bounds.low_m[0]).toBeCloseTo(-5, 9);
    expect(bounds.high_m[0]).toBeCloseTo(5, 9);
    expect(bounds.low_m[1]).toBeCloseTo(-10, 9);
  });

  it('is sharp along a line across its frame; none without a focus', () => {
    const line = focusLine(camera, 'plan')!;
    expect(line).toHaveLength(2);
    for (const [, z] of line) expect(z).toBeCloseTo(-6, 9);
    expect(focusLine({ ...camera, focus_m: undefined } as Camera, 'plan')).toBeNull();
  });
});

describe('times along a path', () => {
  const path = {
    id: 'p',
    of: 'walker',
    points: [
      { t_s: 0.5, position_m: [0, 0, 0] as [number, number, number] },
      { t_s: 4.5, position_m: [8, 0, 0] as [number, number, number] },
    ],
  };

  it('are even ones, at the places of those times, with both ends', () => {
    // Derived: 2 m/s from x = 0 at half a second.
    expect(pathTicks(path, 2).map(({ t_s, position_m }) => [t_s, position_m[0]])).toEqual([
      [0.5, 0],
      [1, 1],
      [2, 3],
      [3, 5],
      [4.5, 8],
    ]);
  });

  it('are only the ends where there is no room for more', () => {
    expect(pathTicks(path, 100).map(({ t_s }) => t_s)).toEqual([0.5, 4.5]);
  });
});
