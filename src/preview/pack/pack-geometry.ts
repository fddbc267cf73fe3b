import { BOUNDS_STRIDE } from '../../core/geometry/bounds.ts';
import type { Geometry } from '../../core/geometry/geometry.ts';
import { ORIGIN, PARAMETERS, RECORD_STRIDE } from '../../core/geometry/shape-record.ts';
import type { Vec3 } from '../../core/math/vec3.ts';
import { madeOnce } from '../../core/memo/made-once.ts';
import { BELONGING, BODY, KINDS, LEAF_SHAPES, NODE, type Packed, SHAPE_TEXELS } from './layout.ts';
import { checkInt, writeStruct } from './struct.ts';
import { newTexels } from './texels.ts';

/**
 * Bounds are widened by this much and this part of their coordinates, so that rounding to single precision, there and in
 * the shapes' own tests, never takes a hit from a ray.
 */
const MARGIN_m = 2e-6;
const MARGIN_RELATIVE = 1e-6;

/**
 * The bodies of a scene: nodes, shapes and openings of layout.ts. The same geometry gives the same objects again, so that its
 * texture need not go to the card again while a lamp is dragged.
 */
export const packGeometry = madeOnce((geometry: Geometry): Packed => {
  const { shapeCount, kinds, records, materials, panes, owners, openings, openingStart, hierarchy } =
    geometry;
  const { bounds, skip, first, count, order } = hierarchy;
  const nodeCount = skip.length;
  const openingCount = openings.length / 4;
  const shapesAt = nodeCount * NODE.texelCount;
  const openingsAt = shapesAt + shapeCount * SHAPE_TEXELS;
  const texels = newTexels(openingsAt + openingCount);
  const { data } = texels;
  const triple = (from: Float64Array, at: number): Vec3 => [from[at]!, from[at + 1]!, from[at + 2]!];

  for (let node = 0; node < nodeCount; node++) {
    const at = node * BOUNDS_STRIDE;
    const low = triple(bounds, at).map((x) => x - MARGIN_m - MARGIN_RELATIVE * Math.abs(x));
    const high = triple(bounds, at + 3).map((x) => x + MARGIN_m + MARGIN_RELATIVE * Math.abs(x));
    const leaf = LEAF_SHAPES * first[node]! + count[node]!;
    const values = { low: triple3(low), skip: skip[node]!, high: triple3(high), leaf };
    writeStruct(NODE, values, data, node * NODE.texelCount);
  }

  for (let place = 0; place < shapeCount; place++) {
    const shape = order[place]!;
    const record = shape * RECORD_STRIDE;
    const firstOpening = openingStart[shape]!;
    const kind = kinds[shape]! + KINDS * (openingStart[shape + 1]! - firstOpening);
    const texel = shapesAt + place * SHAPE_TEXELS;
    const body = {
      x: triple(records, record),
      p: records[record + PARAMETERS]!,
      y: triple(records, record + 3),
      q: records[record + PARAMETERS + 1]!,
      z: triple(records, record + 6),
      r: records[record + PARAMETERS + 2]!,
      origin: triple(records, record + ORIGIN),
      kind,
    };
    writeStruct(BODY, body, data, texel);
    const pane = panes[shape]!;
    const belonging = {
      part: shape,
      substance: pane < 0 ? materials[shape]! : -1 - pane,
      openingStart: firstOpening,
      owner: owners[shape]!,
    };
    writeStruct(BELONGING, belonging, data, texel + BODY.texelCount);
  }

  data.set(openings, 4 * openingsAt);
  return {
    textures: { geometryTexels: texels },
    sections: {
      nodes: { at: 0, count: nodeCount },
      shapes: { at: shapesAt, count: shapeCount },
      openings: { at: checkInt(openingsAt, 'the place of openings'), count: openingCount },
    },
    uniforms: {},
  };
});

function triple3(of: readonly number[]): Vec3 {
  return [of[0]!, of[1]!, of[2]!];
}
