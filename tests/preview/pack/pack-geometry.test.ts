import { describe, expect, it } from 'vitest';
import { buildGeometry, type Geometry } from '../../../src/core/geometry/geometry.ts';
import type { Part } from '../../../src/core/geometry/shape.ts';
import { PARAMETERS } from '../../../src/core/geometry/shape-record.ts';
import type { Vec3 } from '../../../src/core/math/vec3.ts';
import {
  BELONGING,
  BODY,
  KINDS,
  LEAF_SHAPES,
  NODE,
  type Packed,
  SHAPE_TEXELS,
} from '../../../src/preview/pack/layout.ts';
import { packGeometry } from '../../../src/preview/pack/pack-geometry.ts';
import { readStruct } from '../../../src/preview/pack/struct.ts';
import { randomStream } from '../../core/geometry/support/random.ts';
import { randomParts, uniformOf } from '../../core/geometry/support/random-scene.ts';

const data = (packed: Packed) => packed.textures.geometryTexels!.data;

/** Everything that `packGeometry` wrote about a shape, found again by its place. */
function readShape(packed: Packed, place: number) {
  const texel = packed.sections.shapes!.at + place * SHAPE_TEXELS;
  return {
    ...readStruct(BODY, data(packed), texel),
    ...readStruct(BELONGING, data(packed), texel + BODY.texelCount),
  };
}

function expectModel(geometry: Geometry): void {
  const packed = packGeometry(geometry);
  const { records, kinds, panes, materials, owners, openings, openingStart, hierarchy } = geometry;
  expect(packed.sections.nodes).toEqual({ at: 0, count: hierarchy.skip.length });
  for (let i = 0; i < hierarchy.skip.length; i++) {
    const node = readStruct(NODE, data(packed), i * NODE.texelCount);
    expect(node.skip).toBe(hierarchy.skip[i]);
    expect(Math.floor(node.leaf / LEAF_SHAPES)).toBe(hierarchy.first[i]);
    expect(node.leaf % LEAF_SHAPES).toBe(hierarchy.count[i]);
    for (let k = 0; k < 3; k++) {
      // derived: rounded to single precision, a node must still hold what it held.
      expect(node.low[k]!).toBeLessThan(hierarchy.bounds[6 * i + k]!);
      expect(node.high[k]!).toBeGreaterThan(hierarchy.bounds[6 * i + 3 + k]!);
    }
  }
  const seen = new Set<number>();
  for (let place = 0; place < geometry.shapeCount; place++) {
    const shape = readShape(packed, place);
    const { part } = shape;
    expect(part).toBe(hierarchy.order[place]);
    seen.add(part);
    const numbers = [...shape.x, ...shape.y, ...shape.z, ...shape.origin, shape.p, shape.q, shape.r];
    expect(numbers).toEqual([...records.subarray(16 * part, 16 * part + PARAMETERS + 3)].map(Math.fround));
    expect(shape.kind % KINDS).toBe(kinds[part]);
    expect(shape.substance).toBe(panes[part]! >= 0 ? -1 - panes[part]! : materials[part]);
    expect(shape.owner).toBe(owners[part]);
    const count = Math.floor(shape.kind / KINDS);
    expect(count).toBe(openingStart[part + 1]! - openingStart[part]!);
    const from = packed.sections.openings!.at + shape.openingStart;
    expect([...data(packed).subarray(4 * from, 4 * (from + count))]).toEqual(
      [...openings.subarray(4 * openingStart[part]!, 4 * openingStart[part + 1]!)].map(Math.fround),
    );
  }
  expect(seen.size).toBe(geometry.shapeCount);
}

describe('packed bodies', () => {
  it.each([1, 2, 3, 50, 333])('read back as they were: %i shapes of all kinds', (count) => {
    expectModel(buildGeometry(randomParts(uniformOf(randomStream(count)), count, 5)));
  });

  it('may be none', () => {
    const packed = packGeometry(buildGeometry([]));
    expect(packed.sections.nodes!.count).toBe(0);
    expect(data(packed).length).toBeGreaterThan(0);
  });

  it('are whole far from the origin', () => {
    const at = (x: number): Vec3 => [1e4 + x, 0, -1e4];
    const parts = Array.from(
      { length: 40 },
      (_, i): Part => ({
        shape: { kind: 'sphere', centre_m: at(i), radius_m: 0.4 },
        substance: { kind: 'pane', index: i },
        owner: 2 * i,
      }),
    );
    expectModel(buildGeometry(parts));
  });

  it('of a hundred thousand triangles take rows that every card has, in little time', () => {
    const uniform = uniformOf(randomStream(9));
    const corner = (): Vec3 => [uniform(-9, 9), uniform(-9, 9), uniform(-9, 9)];
    const parts = Array.from({ length: 100_000 }, (_, i): Part => {
      const [x, y, z] = corner();
      return {
        shape: { kind: 'triangle', a_m: [x, y, z], b_m: [x + 0.1, y, z], c_m: [x, y + 0.1, z] },
        substance: { kind: 'material', index: 0 },
        owner: i % 7,
      };
    });
    const geometry = buildGeometry(parts);
    const before = process.cpuUsage();
    const packed = packGeometry(geometry);
    const { user, system } = process.cpuUsage(before);
    // derived: 5 texels a triangle, 2 a node, at most 2 nodes a triangle: 900 000 texels in rows of 2048.
    expect(packed.textures.geometryTexels!.height).toBeLessThanOrEqual(440);
    // Set custom: less than the hierarchy itself takes to build.
    expect((user + system) / 1000).toBeLessThan(1500);
    const last = readShape(packed, 99_999);
    expect(last.part).toBe(geometry.hierarchy.order[99_999]);
    console.info(`packing 100 000 triangles: ${((user + system) / 1000).toFixed(0)} ms of processor time`);
  });
});
