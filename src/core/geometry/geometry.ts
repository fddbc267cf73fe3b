import { BOUNDS_STRIDE, shapeBounds } from './bounds.ts';
import { buildHierarchy, type Hierarchy } from './bvh.ts';
import type { Part, Shape } from './shape.ts';
import { KIND_CODES, packShape, RECORD_STRIDE } from './shape-record.ts';

/**
 * Every shape of a scene in flat arrays, indexed by the part's place in the list it was built from: what the ray
 * queries read, what workers are sent, what the preview turns into textures. Metres throughout.
 */
export interface Geometry {
  readonly shapeCount: number;
  /** Kind code and RECORD_STRIDE numbers a shape: see shape-record.ts. */
  readonly kinds: Uint8Array;
  readonly records: Float64Array;
  /** Index of the shape's material, or −1 where it is a pane; and the other way round. */
  readonly materials: Int32Array;
  readonly panes: Int32Array;
  readonly owners: Int32Array;
  /** Openings of shape s: openingStart[s] .. openingStart[s + 1] − 1, each left, bottom, right, top in `openings`. */
  readonly openings: Float64Array;
  readonly openingStart: Int32Array;
  /** Six numbers a shape: see bounds.ts. */
  readonly bounds: Float64Array;
  readonly hierarchy: Hierarchy;
}

/**
 * Packs the parts of a scene and builds their hierarchy.
 * @throws RangeError naming the shape if a number of it is not finite or a size is negative.
 */
export function buildGeometry(parts: readonly Part[]): Geometry {
  const shapeCount = parts.length;
  const kinds = new Uint8Array(shapeCount);
  const records = new Float64Array(shapeCount * RECORD_STRIDE);
  const materials = new Int32Array(shapeCount).fill(-1);
  const panes = new Int32Array(shapeCount).fill(-1);
  const owners = new Int32Array(shapeCount);
  const openings: number[] = [];
  const openingStart = new Int32Array(shapeCount + 1);
  const bounds = new Float64Array(shapeCount * BOUNDS_STRIDE);
  parts.forEach(({ shape, substance, owner }, s) => {
    kinds[s] = KIND_CODES[shape.kind];
    packShape(shape, records, s * RECORD_STRIDE);
    (substance.kind === 'pane' ? panes : materials)[s] = substance.index;
    owners[s] = owner;
    if (shape.kind === 'panel')
      for (const { left_m, bottom_m, right_m, top_m } of shape.openings)
        openings.push(left_m, bottom_m, right_m, top_m);
    openingStart[s + 1] = openings.length / 4;
    shapeBounds(shape, bounds, s * BOUNDS_STRIDE);
    refuseUnusable(shape, s, bounds);
  });
  return {
    shapeCount,
    kinds,
    records,
    materials,
    panes,
    owners,
    openings: new Float64Array(openings),
    openingStart,
    bounds,
    hierarchy: buildHierarchy(bounds, shapeCount),
  };
}

function refuseUnusable(shape: Shape, s: number, bounds: Float64Array): void {
  const at = s * BOUNDS_STRIDE;
  for (let k = at; k < at + BOUNDS_STRIDE; k++)
    if (!Number.isFinite(bounds[k]!))
      throw new RangeError(
        `Shape ${s} (${shape.kind}) reaches to ${bounds[k]} m: every coordinate, size and angle must be a finite number.`,
      );
  for (const size_m of sizes(shape))
    if (!(size_m >= 0))
      throw new RangeError(`Shape ${s} (${shape.kind}) has the size ${size_m} m: sizes must be 0 or more.`);
}

function sizes(shape: Shape): readonly number[] {
  switch (shape.kind) {
    case 'box':
      return shape.halfSize_m;
    case 'panel':
      return [...shape.halfSize_m, shape.topRadius_m ?? 0];
    case 'cylinder':
    case 'arc':
      return [shape.radius_m, shape.halfHeight_m];
    case 'capsule':
      return [shape.radius_m, shape.halfLength_m];
    case 'sphere':
      return [shape.radius_m];
    case 'triangle':
      return [];
  }
}
