import { radiansFromDegrees } from '../math/angle.ts';
import type { Vec3 } from '../math/vec3.ts';
import type { Shape } from './shape.ts';
import { arcSpan } from './shape-record.ts';

/**
 * Exact axis-aligned bounds of each shape, six numbers: lowest x, y, z, then highest x, y, z, in metres.
 *
 * Along a world axis k a convex shape reaches from its centre by its support function, a sum over its local axes:
 * box Σ h_i·|i_k|; disc of radius r spanned by u and v: r·√(u_k² + v_k²); segment h·|y_k|; sphere r.
 */
export const BOUNDS_STRIDE = 6;

type AxisIndex = 0 | 1 | 2;
const AXES: readonly AxisIndex[] = [0, 1, 2];

/** Writes the bounds of `shape` into `bounds` from index `at` on. Openings and what they leave out do not count. */
export function shapeBounds(shape: Shape, bounds: Float64Array, at: number): void {
  for (const k of AXES) {
    const [low, high] = extent(shape, k);
    bounds[at + k] = low;
    bounds[at + 3 + k] = high;
  }
}

function extent(shape: Shape, k: AxisIndex): readonly [number, number] {
  switch (shape.kind) {
    case 'box': {
      const { x, y, z, origin_m } = shape.placement;
      const [hx, hy, hz] = shape.halfSize_m;
      return around(origin_m[k], hx * Math.abs(x[k]) + hy * Math.abs(y[k]) + hz * Math.abs(z[k]));
    }
    case 'cylinder': {
      const { x, y, z, origin_m } = shape.placement;
      return around(
        origin_m[k],
        shape.halfHeight_m * Math.abs(y[k]) + shape.radius_m * Math.hypot(x[k], z[k]),
      );
    }
    case 'sphere':
      return around(shape.centre_m[k], shape.radius_m);
    case 'capsule':
      return around(
        shape.placement.origin_m[k],
        shape.halfLength_m * Math.abs(shape.placement.y[k]) + shape.radius_m,
      );
    case 'panel':
      return panelExtent(shape, k);
    case 'arc':
      return arcExtent(shape, k);
    case 'triangle':
      return [
        Math.min(shape.a_m[k], shape.b_m[k], shape.c_m[k]),
        Math.max(shape.a_m[k], shape.b_m[k], shape.c_m[k]),
      ];
  }
}

function around(middle: number, reach: number): readonly [number, number] {
  return [middle - reach, middle + reach];
}

/** A panel is the hull of its two lower corners and of the discs that round its two upper ones. */
function panelExtent(shape: Extract<Shape, { kind: 'panel' }>, k: AxisIndex): readonly [number, number] {
  const { x, y, origin_m } = shape.placement;
  const [hx, hy] = shape.halfSize_m;
  const r = shape.topRadius_m ?? 0;
  const disc = r * Math.hypot(x[k], y[k]);
  const lower = -hy * y[k];
  const upper = (hy - r) * y[k];
  const lowerReach = hx * Math.abs(x[k]);
  const upperReach = (hx - r) * Math.abs(x[k]) + disc;
  return [
    origin_m[k] + Math.min(lower - lowerReach, upper - upperReach),
    origin_m[k] + Math.max(lower + lowerReach, upper + upperReach),
  ];
}

/** r·(x_k cos φ + z_k sin φ) is a sinusoid: its extremes are its ends and whichever crests lie between them. */
function arcExtent(shape: Extract<Shape, { kind: 'arc' }>, k: AxisIndex): readonly [number, number] {
  const { x, y, z, origin_m } = shape.placement;
  const from = radiansFromDegrees(shape.from_deg);
  const span = arcSpan(shape);
  const at = (angle: number) => shape.radius_m * (x[k] * Math.cos(angle) + z[k] * Math.sin(angle));
  const within = (angle: number) => positiveTurn(angle - from) <= span;
  const crest = Math.atan2(z[k], x[k]);
  const amplitude = shape.radius_m * Math.hypot(x[k], z[k]);
  const ends: Vec3 = [at(from), at(from + span), at(from + span / 2)];
  const lowest = within(crest + Math.PI) ? -amplitude : Math.min(...ends);
  const highest = within(crest) ? amplitude : Math.max(...ends);
  const reach = shape.halfHeight_m * Math.abs(y[k]);
  return [origin_m[k] + lowest - reach, origin_m[k] + highest + reach];
}

function positiveTurn(angle: number): number {
  const turn = 2 * Math.PI;
  return ((angle % turn) + turn) % turn;
}
