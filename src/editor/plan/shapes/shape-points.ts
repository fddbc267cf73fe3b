import { type Placement, worldPoint } from '../../../core/geometry/placement.ts';
import type { Shape } from '../../../core/geometry/shape.ts';
import { radiansFromDegrees } from '../../../core/math/angle.ts';
import type { Vec3 } from '../../../core/math/vec3.ts';
import { type Flat, flat, type Projection } from '../drawing/projection.ts';

/** Circles are drawn as polygons of so many sides: flat by 0.5 % of their radius. */
const CIRCLE_SIDES = 32;
const CORNER_STEPS = 6;
const ENDS = [-1, 1] as const;

/** Points whose convex hull is the shape as it looks on the sheet. Openings do not count. */
export function shapePoints(shape: Shape, projection: Projection): Flat[] {
  const put = (placement: Placement, local: Vec3) => flat(worldPoint(placement, local), projection);
  switch (shape.kind) {
    case 'box': {
      const { placement, halfSize_m } = shape;
      const [x, y, z] = halfSize_m;
      return ENDS.flatMap((i) => ENDS.flatMap((j) => ENDS.map((k) => put(placement, [i * x, j * y, k * z]))));
    }
    case 'cylinder': {
      const { placement, radius_m, halfHeight_m } = shape;
      return circle().flatMap(([c, s]) =>
        ENDS.map((end) => put(placement, [radius_m * c, end * halfHeight_m, radius_m * s])),
      );
    }
    case 'sphere':
      return disc(flat(shape.centre_m, projection), shape.radius_m);
    case 'capsule':
      return ENDS.flatMap((end) =>
        disc(put(shape.placement, [0, end * shape.halfLength_m, 0]), shape.radius_m),
      );
    case 'panel': {
      const { placement, topRadius_m: r = 0 } = shape;
      const [x, y] = shape.halfSize_m;
      const corners = ENDS.flatMap((side): Vec3[] => [
        [side * x, -y, 0],
        ...cornerArc().map(([c, s]): Vec3 => [side * (x - r + r * c), y - r + r * s, 0]),
      ]);
      return corners.map((corner) => put(placement, corner));
    }
    case 'arc': {
      const { placement, radius_m, halfHeight_m, from_deg, to_deg } = shape;
      const span_deg = (((to_deg - from_deg) % 360) + 360) % 360 || 360;
      return Array.from({ length: CIRCLE_SIDES + 1 }, (_, i) =>
        radiansFromDegrees(from_deg + (span_deg * i) / CIRCLE_SIDES),
      ).flatMap((angle) =>
        ENDS.map((end) =>
          put(placement, [radius_m * Math.cos(angle), end * halfHeight_m, radius_m * Math.sin(angle)]),
        ),
      );
    }
    case 'triangle':
      return [shape.a_m, shape.b_m, shape.c_m].map((corner) => flat(corner, projection));
  }
}

function circle(): readonly Flat[] {
  return Array.from({ length: CIRCLE_SIDES }, (_, i): Flat => {
    const angle = (2 * Math.PI * i) / CIRCLE_SIDES;
    return [Math.cos(angle), Math.sin(angle)];
  });
}

function cornerArc(): readonly Flat[] {
  return Array.from({ length: CORNER_STEPS + 1 }, (_, i): Flat => {
    const angle = (Math.PI / 2) * (i / CORNER_STEPS);
    return [Math.cos(angle), Math.sin(angle)];
  });
}

function disc([u, v]: Flat, radius_m: number): Flat[] {
  return circle().map(([c, s]): Flat => [u + radius_m * c, v + radius_m * s]);
}
