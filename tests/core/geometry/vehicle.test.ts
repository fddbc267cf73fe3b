import { describe, expect, it } from 'vitest';
import { buildGeometry, type Geometry } from '../../../src/core/geometry/geometry.ts';
import {
  type Placement,
  placementFrom,
  WORLD,
  worldDirection,
  worldPoint,
} from '../../../src/core/geometry/placement.ts';
import { nearestHit } from '../../../src/core/geometry/ray-query.ts';
import { newHit } from '../../../src/core/geometry/ray-shape.ts';
import { type VehiclePart, vehicleParts } from '../../../src/core/geometry/vehicle.ts';
import { vehicleProblems } from '../../../src/core/geometry/vehicle-openings.ts';
import type { Side, VehicleSpec } from '../../../src/core/geometry/vehicle-spec.ts';
import { add, normalize, scale, subtract, type Vec3 } from '../../../src/core/math/vec3.ts';
import { IDENTITY } from '../../tolerances.ts';
import { randomStream } from './support/random.ts';
import { randomPoint, uniformOf } from './support/random-scene.ts';

const window = { sill_m: 1.3, head_m: 2.1, width_m: 1.4, glazed: true } as const;

const BOAT: VehicleSpec = {
  size_m: [24, 3, 3.2],
  wall_m: 0.06,
  roofRadius_m: 0.4,
  inside: true,
  windows: [
    { ...window, side: 'right', count: 8, first_m: 2, pitch_m: 2.5 },
    { ...window, side: 'left', count: 2, first_m: 5, pitch_m: 3 },
    { ...window, side: 'front', count: 2, first_m: 0.3, pitch_m: 1.4, width_m: 1, head_m: 2.6 },
    { ...window, side: 'back', count: 1, first_m: 0.5, pitch_m: 1, width_m: 0.8 },
  ],
  doors: [
    { side: 'left', count: 1, first_m: 1, pitch_m: 1, width_m: 0.9, head_m: 2.2, open: true },
    { side: 'right', count: 1, first_m: 0.5, pitch_m: 1, width_m: 0.9, head_m: 2.2, open: false },
    { side: 'back', count: 1, first_m: 2, pitch_m: 1, width_m: 0.8, head_m: 2, open: true },
  ],
};

/** The holes of BOAT by hand, as low and high x or z, low and high y. Derived from the distances in the spec. */
const HOLES: Readonly<Record<Side, readonly (readonly [number, number, number, number])[]>> = {
  right: Array.from({ length: 8 }, (_, i) => [12 - 2 - 2.5 * i - 1.4, 12 - 2 - 2.5 * i, 1.3, 2.1] as const),
  left: [
    [12 - 5 - 1.4, 12 - 5, 1.3, 2.1],
    [12 - 8 - 1.4, 12 - 8, 1.3, 2.1],
    [12 - 1 - 0.9, 12 - 1, 0, 2.2],
  ],
  front: [
    [1.6 - 0.3 - 1, 1.6 - 0.3, 1.3, 2.6],
    [1.6 - 1.7 - 1, 1.6 - 1.7, 1.3, 2.6],
  ],
  back: [
    [1.6 - 0.5 - 0.8, 1.6 - 0.5, 1.3, 2.1],
    [1.6 - 2 - 0.8, 1.6 - 2, 0, 2],
  ],
};

function opaque(parts: readonly VehiclePart[]): Geometry {
  return buildGeometry(
    parts
      .filter(({ role }) => role !== 'pane')
      .map(({ shape }) => ({ shape, substance: { kind: 'material', index: 0 }, owner: 0 })),
  );
}

function withPanes(parts: readonly VehiclePart[]): Geometry {
  return buildGeometry(
    parts.map((part) => ({
      shape: part.shape,
      substance:
        part.role === 'pane' ? { kind: 'pane', index: part.windowRun } : { kind: 'material', index: 0 },
      owner: 0,
    })),
  );
}

/** Whether a line from inside passes one of the holes, through the whole thickness of the wall. */
function leavesByHole(o: Vec3, d: Vec3): boolean {
  return (['right', 'left', 'front', 'back'] as const).some((side) => {
    const axis = side === 'right' || side === 'left' ? 2 : 0;
    const along = axis === 2 ? 0 : 2;
    const sign = side === 'right' || side === 'front' ? 1 : -1;
    if (!(d[axis] * sign > 0)) return false;
    const outer = (sign * (axis === 2 ? 1.6 : 12) - o[axis]) / d[axis];
    const inner = (sign * ((axis === 2 ? 1.6 : 12) - 0.06) - o[axis]) / d[axis];
    return HOLES[side].some(([low, high, bottom, top]) =>
      [inner, outer].every((t) => {
        const [a, y] = [o[along] + t * d[along], o[1] + t * d[1]];
        return a > low && a < high && y > bottom && y < top;
      }),
    );
  });
}

describe('a vehicle lets no light through but by its openings', () => {
  const tilted = placementFrom([310, 4, -120], [3, 37, -5]);

  it.each([
    ['with an inside, square to the world', BOAT, WORLD],
    ['with an inside, turned and tilted', BOAT, tilted],
    ['of single sheets', { ...BOAT, inside: false }, tilted],
  ] as const)('%s', (_, spec, placement) => {
    const geometry = opaque(vehicleParts(spec, placement));
    const uniform = uniformOf(randomStream(42));
    const hit = newHit();
    let escaped = 0;
    let wrong = 0;
    for (let i = 0; i < 40_000; i++) {
      const o: Vec3 = [uniform(-11.9, 11.9), uniform(0.01, 2.55), uniform(-1.5, 1.5)];
      const d = normalize(randomPoint(uniform, 1));
      const found = nearestHit(
        geometry,
        ...worldPoint(placement, o),
        ...worldDirection(placement, d),
        0,
        1000,
        hit,
      );
      if (!found) escaped++;
      if (found === leavesByHole(o, d)) wrong++;
    }
    expect(wrong).toBe(0);
    expect(escaped).toBeGreaterThan(1000);
  });

  it('at the joints of its walls, roof, floor and reveals', () => {
    for (const placement of [WORLD, tilted]) {
      const geometry = opaque(vehicleParts({ ...BOAT, windows: [], doors: [] }, placement));
      const uniform = uniformOf(randomStream(43));
      const hit = newHit();
      let leaks = 0;
      for (let i = 0; i < 20_000; i++) {
        const end = uniform(0, 1) < 0.5 ? 12 : -12;
        const side = uniform(0, 1) < 0.5 ? 1 : -1;
        const [x, y, z] = [uniform(-12, 12), uniform(0, 2.6), side * uniform(0, 1.6)];
        const joints: Vec3[] = [
          [end, y, side * 1.6],
          [end, 0, z],
          [x, 0, side * 1.6],
          [x, 2.6, side * 1.6],
          [x, 3, side * 1.2],
          [end, 3, side * uniform(0, 1.2)],
          [end, 2.6 + 0.4 * Math.sin(y / 2), side * (1.2 + 0.4 * Math.cos(y / 2))],
        ];
        const joint = joints[i % joints.length]!;
        const o: Vec3 = [uniform(-11.9, 11.9), uniform(0.01, 2.55), uniform(-1.5, 1.5)];
        const d = subtract(joint, o);
        if (!nearestHit(geometry, ...worldPoint(placement, o), ...worldDirection(placement, d), 0, 99, hit))
          leaks++;
      }
      expect(leaks).toBe(0);
    }
  });

  it('nor from inside its walls', () => {
    const geometry = opaque(vehicleParts(BOAT, tilted));
    const uniform = uniformOf(randomStream(44));
    const hit = newHit();
    let rays = 0;
    let leaks = 0;
    while (rays < 20_000) {
      const side = uniform(0, 1) < 0.5 ? 1 : -1;
      const o: Vec3 = [uniform(-11.9, 11.9), uniform(0.01, 2.5), side * uniform(1.545, 1.595)];
      const inHole = HOLES[side > 0 ? 'right' : 'left'].some(
        ([low, high, bottom, top]) =>
          o[0] > low - 0.01 && o[0] < high + 0.01 && o[1] > bottom - 0.01 && o[1] < top + 0.01,
      );
      if (inHole) continue;
      rays++;
      const d = normalize(randomPoint(uniform, 1));
      const found = nearestHit(geometry, ...worldPoint(tilted, o), ...worldDirection(tilted, d), 0, 99, hit);
      const [x, y, z] = add(o, scale(d, hit.t));
      // Stopped within the thickness of the shell: on or outside the inner surface, on or inside the outer one.
      const inRoom = Math.abs(x) < 11.94 - 1e-6 && y > 1e-6 && y < 2.6 && Math.abs(z) < 1.54 - 1e-6;
      const outside = Math.abs(x) > 12 + 1e-6 || y < -1e-6 || y > 3 + 1e-6 || Math.abs(z) > 1.6 + 1e-6;
      if (!found || inRoom || outside) leaks++;
    }
    expect(leaks).toBe(0);
  });
});

describe('a vehicle', () => {
  const place = placementFrom([10, 1, -4], [0, 90, 0]);
  const parts = vehicleParts(BOAT, place);
  const geometry = withPanes(parts);
  const look = (from: Vec3, to: Vec3, placement: Placement = place) => {
    const hit = newHit();
    const [o, q] = [worldPoint(placement, from), worldPoint(placement, to)];
    const found = nearestHit(geometry, ...o, ...subtract(q, o), 0, 1, hit);
    return found ? { part: parts[hit.shape]!, hit } : null;
  };

  it('has its windows where the distances from the front and from the right say', () => {
    // derived: see HOLES; a centimetre to either side of the first and last edges.
    const seen = (from: Vec3, to: Vec3) => look(from, to)?.part.role;
    for (const [x, role] of [
      [10.01, 'outside'],
      [9.99, 'pane'],
      [8.61, 'pane'],
      [8.59, 'outside'],
      [7.49, 'pane'],
      [-8.89, 'pane'],
      [-8.91, 'outside'],
    ] as const)
      expect(seen([x, 1.7, 5], [x, 1.7, 0]), `right, x ${x}`).toBe(role);
    for (const [y, role] of [
      [1.29, 'outside'],
      [1.31, 'pane'],
      [2.09, 'pane'],
      [2.11, 'outside'],
    ] as const)
      expect(seen([9, y, 5], [9, y, 0]), `right, y ${y}`).toBe(role);
    for (const [x, role] of [
      [7.01, 'outside'],
      [6.99, 'pane'],
      [5.61, 'pane'],
      [5.59, 'outside'],
    ] as const)
      expect(seen([x, 1.7, -5], [x, 1.7, 0]), `left, x ${x}`).toBe(role);
    for (const [z, role] of [
      [1.31, 'outside'],
      [1.29, 'pane'],
      [0.31, 'pane'],
      [0.29, 'outside'],
      [-0.11, 'pane'],
    ] as const)
      expect(seen([20, 1.7, z], [9, 1.7, z]), `front, z ${z}`).toBe(role);
    for (const [z, role] of [
      [1.11, 'outside'],
      [1.09, 'pane'],
      [0.31, 'pane'],
      [0.29, 'outside'],
    ] as const)
      expect(seen([-20, 1.7, z], [-9, 1.7, z]), `back, z ${z}`).toBe(role);
  });

  it('has doors that are open to the floor, or as the wall', () => {
    expect(look([10.5, 0.001, -5], [10.5, 0.001, -1])).toBeNull();
    expect(look([11, 1, 5], [11, 1, 0])?.part.name).toBe('right wall, outside');
  });

  it('has panes half-way through the wall, one for each window, that know their run', () => {
    const { hit } = look([9, 1.7, 5], [9, 1.7, 0])!;
    expect(Math.abs(5 * hit.t - (5 - 1.57))).toBeLessThan(IDENTITY * 10);
    const runs = parts.flatMap((part) => (part.role === 'pane' ? [part.windowRun] : []));
    expect(runs).toEqual([0, 0, 0, 0, 0, 0, 0, 0, 1, 1, 2, 2, 3]);
    const bare = vehicleParts(
      { ...BOAT, windows: BOAT.windows.map((run) => ({ ...run, glazed: false })) },
      WORLD,
    );
    expect(bare.some(({ role }) => role === 'pane')).toBe(false);
  });

  it('shows its front surfaces to both who is outside and who is inside', () => {
    const middle: Vec3 = [0, 1, 0];
    for (const [to, outside, inside] of [
      [[0, 1, 9], 'right wall, outside', 'right wall, inside'],
      [[0, 1, -9], 'left wall, outside', 'left wall, inside'],
      [[20, 1.1, 0], 'front wall, outside', 'front wall, inside'],
      [[-20, 1.1, 0], 'back wall, outside', 'back wall, inside'],
      [[0, 9, 0], 'roof', 'ceiling'],
      [[0, 1 + 1.8 * 4, 1.4 * 4], 'right roof edge, outside', 'right roof edge, inside'],
      [[0, 1 + 1.8 * 4, -1.4 * 4], 'left roof edge, outside', 'left roof edge, inside'],
    ] as const) {
      for (const [found, name, role] of [
        [look(to, middle), outside, 'outside'],
        [look(middle, to), inside, 'inside'],
      ] as const) {
        expect(found?.part.name).toBe(name);
        expect(found?.part.role).toBe(role);
        // An arc's front is away from its axis, so from inside the roof edge is seen from behind.
        expect(found?.hit.front, name).toBe(name !== inside || !name.includes('edge'));
      }
    }
    expect(look(middle, [0, -3, 0])?.part.name).toBe('floor');
  });

  it('is as large as it says, round along the long edges of the roof and nowhere else', () => {
    const { bounds } = buildGeometry(
      vehicleParts(BOAT, WORLD).map(({ shape }) => ({
        shape,
        substance: { kind: 'material', index: 0 },
        owner: 0,
      })),
    );
    const reach = [0, 1, 2, 3, 4, 5].map((k) => {
      const values = [...bounds].filter((_, i) => i % 6 === k);
      return k < 3 ? Math.min(...values) : Math.max(...values);
    });
    [-12, 0, -1.6, 12, 3, 1.6].forEach((expected, k) => {
      expect(Math.abs(reach[k]! - expected)).toBeLessThan(IDENTITY);
    });
    // derived: at 45° the edge lies 0.4/√2 = 0.2828 from the arc's axis each way; lengthways rays 1 mm either side of it.
    const rim = (past: number) => {
      const [y, z] = [2.6 + 0.2828 + past, 1.2 + 0.2828 + past];
      return look([20, y, z], [-20, y, z]);
    };
    expect(rim(0.001)).toBeNull();
    expect(rim(-0.001)?.part.name).toBe('front wall, outside');
  });

  it('without an inside has no inner shell', () => {
    const roles = vehicleParts({ ...BOAT, inside: false }, WORLD).map(({ role }) => role);
    expect(new Set(roles)).toEqual(new Set(['outside', 'pane']));
  });

  it('may have a square roof, a round one, or an edge rounder than its wall is thick', () => {
    const plain = { ...BOAT, windows: [], doors: [] };
    for (const [roofRadius_m, arcs] of [
      [0, 0],
      [0.05, 2],
      [0.4, 4],
      [1.6, 4],
    ] as const) {
      const shapes = vehicleParts({ ...plain, roofRadius_m }, WORLD);
      expect(shapes.filter(({ shape }) => shape.kind === 'arc')).toHaveLength(arcs);
      const closed = opaque(shapes);
      const uniform = uniformOf(randomStream(45));
      let leaks = 0;
      for (let i = 0; i < 3000; i++) {
        const o: Vec3 = [uniform(-11, 11), uniform(0.1, 1.3), uniform(-1, 1)];
        if (!nearestHit(closed, ...o, ...randomPoint(uniform, 1), 0, 1e6, newHit())) leaks++;
      }
      expect(leaks, `radius ${roofRadius_m}`).toBe(0);
    }
  });
});

describe('what keeps a vehicle from being built', () => {
  const run = BOAT.windows[0]!;
  const door = BOAT.doors[0]!;
  const boat = (change: Partial<VehicleSpec>) =>
    vehicleProblems({ ...BOAT, windows: [], doors: [], ...change });

  it('is nothing for a sound one, one whose windows just fit, and one with a door in front of which a window may be', () => {
    expect(vehicleProblems(BOAT)).toEqual([]);
    expect(boat({ windows: [{ ...run, first_m: 0.06, pitch_m: 1.4, count: 17, width_m: 1.4 }] })).toEqual([]);
    expect(boat({ windows: [{ ...run, head_m: 2.6 }] })).toEqual([]);
    expect(boat({ windows: [run], doors: [{ ...door, side: 'right', first_m: 2.2, open: false }] })).toEqual(
      [],
    );
  });

  it.each([
    ['no length', { size_m: [0, 3, 3] }, 'size_m', /0, 3, 3/],
    ['a height that is no number', { size_m: [1, Number.NaN, 3] }, 'size_m', /NaN/],
    ['walls that meet', { wall_m: 1.6 }, 'wall_m', /under 1.6 m/],
    ['no walls', { wall_m: 0 }, 'wall_m', /above 0/],
    ['a roof too round', { roofRadius_m: 1.7 }, 'roofRadius_m', /0 to 1.6 m/],
    ['half a window', { windows: [{ ...run, count: 1.5 }] }, 'windows[0].count', /whole number/],
    ['windows without end', { windows: [{ ...run, count: 1e9 }] }, 'windows[0].count', /1 to 500/],
    ['windows that overlap', { windows: [{ ...run, pitch_m: 1.3 }] }, 'windows[0].pitch_m', /1.3.* 1.4 m/],
    ['no pitch', { windows: [{ ...run, count: 1, pitch_m: Number.NaN }] }, 'windows[0].pitch_m', /NaN/],
    ['a window past the back', { windows: [{ ...run, count: 10 }] }, 'windows[0].first_m', /25.9 m.*23.94 m/],
    ['a window in the corner', { windows: [{ ...run, first_m: 0.05 }] }, 'windows[0].first_m', /0.06 m/],
    [
      'a window in the roof edge',
      { windows: [{ ...run, head_m: 2.61 }] },
      'windows[0].head_m',
      /2.6 m or lower/,
    ],
    [
      'an end window in the rounded corner',
      { windows: [{ ...run, side: 'front', count: 1, first_m: 0.2, head_m: 2.9 }] },
      // derived: the inner edge has radius 0.34 about 0.4 from the side: 0.2 out, it is √(0.34² − 0.2²) = 0.275 up.
      'windows[0].head_m',
      /2.875 m or lower/,
    ],
    ['a window upside down', { windows: [{ ...run, sill_m: 2.2 }] }, 'windows[0].head_m', /above .* 2.2 m/],
    ['a window under the floor', { windows: [{ ...run, sill_m: -1 }] }, 'windows[0].sill_m', /0 m/],
    ['no width', { doors: [{ ...door, width_m: 0 }] }, 'doors[0].width_m', /above 0/],
    [
      'a window in an open door',
      { windows: [{ ...run, side: 'left', count: 1, first_m: 1.5 }], doors: [door] },
      'doors[0]',
      /overlaps windows\[0\] on the left wall/,
    ],
  ] as const)('%s', (_, change, where, message) => {
    const problems = boat(change as Partial<VehicleSpec>);
    expect(problems.map((problem) => problem.where)).toEqual([where]);
    expect(problems[0]!.message).toMatch(message);
    expect(() =>
      vehicleParts({ ...BOAT, windows: [], doors: [], ...(change as Partial<VehicleSpec>) }, WORLD),
    ).toThrow(where);
  });
});
