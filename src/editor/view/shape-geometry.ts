import {
  BoxGeometry,
  BufferGeometry,
  CapsuleGeometry,
  CylinderGeometry,
  EdgesGeometry,
  Float32BufferAttribute,
  Matrix4,
  Shape as Outline,
  Path,
  ShapeGeometry,
  SphereGeometry,
} from 'three';
import type { Placement } from '../../core/geometry/placement.ts';
import type { Shape } from '../../core/geometry/shape.ts';

const FULL_TURN_SEGMENTS = 48;
const SPHERE_RINGS = 24;
const CORNER_SEGMENTS = 8;
/** Faces that meet at less than this are one smooth surface: no line is drawn between them. */
const EDGE_deg = 25;

type Extended = Exclude<Shape, { kind: 'triangle' }>;

/** The surface of an exact shape in the world, as positions and normals without an index. */
export function shapeGeometry(shape: Extended): BufferGeometry {
  const indexed = localGeometry(shape);
  const geometry = indexed.index ? indexed.toNonIndexed() : indexed;
  if (geometry !== indexed) indexed.dispose();
  geometry.deleteAttribute('uv');
  return geometry.applyMatrix4(
    shape.kind === 'sphere' ? translation(shape.centre_m) : matrixOf(shape.placement),
  );
}

/** The lines along its sharp edges, in the world, as pairs of points. */
export function edgesOf(geometry: BufferGeometry): Float32Array {
  const edges = new EdgesGeometry(geometry, EDGE_deg);
  const positions = Float32Array.from(edges.getAttribute('position').array);
  edges.dispose();
  return positions;
}

export function matrixOf({ origin_m, x, y, z }: Placement): Matrix4 {
  return new Matrix4().set(
    ...[x[0], y[0], z[0], origin_m[0]],
    ...[x[1], y[1], z[1], origin_m[1]],
    ...[x[2], y[2], z[2], origin_m[2]],
    ...[0, 0, 0, 1],
  );
}

function translation([x, y, z]: readonly [number, number, number]): Matrix4 {
  return new Matrix4().makeTranslation(x, y, z);
}

function localGeometry(shape: Extended): BufferGeometry {
  switch (shape.kind) {
    case 'box': {
      const [x, y, z] = shape.halfSize_m;
      return new BoxGeometry(2 * x, 2 * y, 2 * z);
    }
    case 'cylinder': {
      const { radius_m, halfHeight_m } = shape;
      return new CylinderGeometry(radius_m, radius_m, 2 * halfHeight_m, FULL_TURN_SEGMENTS);
    }
    case 'sphere':
      return new SphereGeometry(shape.radius_m, FULL_TURN_SEGMENTS, SPHERE_RINGS);
    case 'capsule':
      return new CapsuleGeometry(shape.radius_m, 2 * shape.halfLength_m, CORNER_SEGMENTS, SPHERE_RINGS);
    case 'panel':
      return new ShapeGeometry(panelOutline(shape), CORNER_SEGMENTS);
    case 'arc':
      return arcGeometry(shape);
  }
}

function panelOutline({ halfSize_m, openings, topRadius_m = 0 }: Extract<Shape, { kind: 'panel' }>): Outline {
  const [x, y] = halfSize_m;
  const r = topRadius_m;
  const outline = new Outline()
    .moveTo(-x, -y)
    .lineTo(x, -y)
    .lineTo(x, y - r);
  if (r > 0) outline.absarc(x - r, y - r, r, 0, Math.PI / 2, false);
  outline.lineTo(-x + r, y);
  if (r > 0) outline.absarc(-x + r, y - r, r, Math.PI / 2, Math.PI, false);
  outline.closePath();
  for (const { left_m, bottom_m, right_m, top_m } of openings) {
    outline.holes.push(
      new Path()
        .moveTo(left_m, bottom_m)
        .lineTo(left_m, top_m)
        .lineTo(right_m, top_m)
        .lineTo(right_m, bottom_m)
        .closePath(),
    );
  }
  return outline;
}

/** three turns from +z toward +x, the shape from +x toward +z: θ = 90° − φ, and the sense is reversed. */
function arcGeometry({
  radius_m,
  halfHeight_m,
  from_deg,
  to_deg,
}: Extract<Shape, { kind: 'arc' }>): BufferGeometry {
  const span_deg = arcSpan_deg(from_deg, to_deg);
  const radians = Math.PI / 180;
  return new CylinderGeometry(
    radius_m,
    radius_m,
    2 * halfHeight_m,
    Math.max(2, Math.ceil((FULL_TURN_SEGMENTS * span_deg) / 360)),
    1,
    true,
    (90 - from_deg - span_deg) * radians,
    span_deg * radians,
  );
}

/** From one angle up to the other, through 360 where the second is the smaller. */
function arcSpan_deg(from_deg: number, to_deg: number): number {
  const span = (((to_deg - from_deg) % 360) + 360) % 360;
  return span === 0 ? 360 : span;
}

/** Flat-shaded triangles as they stand in the world. */
export function trianglesGeometry(
  triangles: readonly Extract<Shape, { kind: 'triangle' }>[],
): BufferGeometry {
  const positions = new Float32Array(9 * triangles.length);
  for (const [i, { a_m, b_m, c_m }] of triangles.entries()) positions.set([...a_m, ...b_m, ...c_m], 9 * i);
  const geometry = new BufferGeometry();
  geometry.setAttribute('position', new Float32BufferAttribute(positions, 3));
  geometry.computeVertexNormals();
  return geometry;
}
