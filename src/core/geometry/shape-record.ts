import { radiansFromDegrees } from '../math/angle.ts';
import { cross, normalize, subtract, type Vec3 } from '../math/vec3.ts';
import type { Placement } from './placement.ts';
import type { Shape } from './shape.ts';

/**
 * How a shape lies in the flat arrays: RECORD_STRIDE numbers each (four texels of four).
 *
 *   0..8    rows of the rotation world → local, that is the placement's x, y and z axes (a triangle: a, b, c)
 *   9..11   the local origin in the world (a sphere: its centre; a triangle: its unit normal)
 *   12..15  box: half sizes · cylinder: radius, half height · sphere: radius · capsule: radius, half length ·
 *           panel: half sizes, radius of the top corners · arc: radius, half height, cosine of half its span
 *
 * An arc's frame is turned about its axis so that the middle of the arc lies on local +x.
 */
export const RECORD_STRIDE = 16;
export const ORIGIN = 9;
export const PARAMETERS = 12;

export const BOX = 0;
export const CYLINDER = 1;
export const SPHERE = 2;
export const CAPSULE = 3;
export const PANEL = 4;
export const ARC = 5;
export const TRIANGLE = 6;

export const KIND_CODES: Readonly<Record<Shape['kind'], number>> = {
  box: BOX,
  cylinder: CYLINDER,
  sphere: SPHERE,
  capsule: CAPSULE,
  panel: PANEL,
  arc: ARC,
  triangle: TRIANGLE,
};

/**
 * Sheets (panels, arcs) reach this far past their edges, openings included, so that no ray slips between two that
 * share an edge: above the rounding of a grazing hit on a metre-sized arc (√2⁻⁵² ≈ 1.5e-8), far below any real seam.
 */
export const SEAM_m = 1e-7;

/** Below every cosine: an arc that closes on itself has no edge to test. */
const FULL_TURN = -2;

/** The angle an arc spans, in radians, 0..2π. */
export function arcSpan(shape: Extract<Shape, { kind: 'arc' }>): number {
  const span_deg = shape.to_deg - shape.from_deg;
  if (span_deg >= 360) return 2 * Math.PI;
  return radiansFromDegrees(((span_deg % 360) + 360) % 360);
}

/** Writes the record of one shape at `at`. */
export function packShape(shape: Shape, records: Float64Array, at: number): void {
  switch (shape.kind) {
    case 'box':
      packPlacement(shape.placement, records, at);
      records.set(shape.halfSize_m, at + PARAMETERS);
      return;
    case 'cylinder':
      packPlacement(shape.placement, records, at);
      records.set([shape.radius_m, shape.halfHeight_m], at + PARAMETERS);
      return;
    case 'sphere':
      records.set(shape.centre_m, at + ORIGIN);
      records[at + PARAMETERS] = shape.radius_m;
      return;
    case 'capsule':
      packPlacement(shape.placement, records, at);
      records.set([shape.radius_m, shape.halfLength_m], at + PARAMETERS);
      return;
    case 'panel':
      packPlacement(shape.placement, records, at);
      records.set([...shape.halfSize_m, shape.topRadius_m ?? 0], at + PARAMETERS);
      return;
    case 'arc': {
      const span = arcSpan(shape);
      const middle = radiansFromDegrees(shape.from_deg) + span / 2;
      const half = span / 2 + SEAM_m / shape.radius_m;
      packPlacement(turnedAboutY(shape.placement, middle), records, at);
      records.set(
        [shape.radius_m, shape.halfHeight_m, half < Math.PI ? Math.cos(half) : FULL_TURN],
        at + PARAMETERS,
      );
      return;
    }
    case 'triangle':
      records.set([...shape.a_m, ...shape.b_m, ...shape.c_m], at);
      records.set(triangleNormal(shape.a_m, shape.b_m, shape.c_m), at + ORIGIN);
      return;
  }
}

/** Unit normal of the side from which a, b, c run counter-clockwise; zero for a triangle without area. */
export function triangleNormal(a: Vec3, b: Vec3, c: Vec3): Vec3 {
  return normalize(cross(subtract(b, a), subtract(c, a)));
}

function packPlacement(placement: Placement, records: Float64Array, at: number): void {
  records.set(placement.x, at);
  records.set(placement.y, at + 3);
  records.set(placement.z, at + 6);
  records.set(placement.origin_m, at + ORIGIN);
}

function turnedAboutY(placement: Placement, angle: number): Placement {
  const { x, y, z, origin_m } = placement;
  const [c, s] = [Math.cos(angle), Math.sin(angle)];
  return {
    origin_m,
    x: [c * x[0] + s * z[0], c * x[1] + s * z[1], c * x[2] + s * z[2]],
    y,
    z: [c * z[0] - s * x[0], c * z[1] - s * x[1], c * z[2] - s * x[2]],
  };
}
