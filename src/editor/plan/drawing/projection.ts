import type { Vec3 } from '../../../core/math/vec3.ts';

/**
 * How the set is laid flat: plan from above; elevation along x as seen from +z; elevation along z as seen from −x, so that
 * both elevations read from left to right the way their coordinate grows.
 */
export type Projection = 'plan' | 'along-x' | 'along-z';

/** A place on the drawing in metres: u to the right, v down the sheet. */
export type Flat = readonly [u: number, v: number];

type Axis = 0 | 1 | 2;

interface Sheet {
  readonly name: string;
  /** The world's axes that run to the right and down, and which way. */
  readonly across: Axis;
  readonly down: Axis;
  readonly downSign: 1 | -1;
  /** From the set to whoever looks at the sheet. */
  readonly toViewer: Vec3;
}

export const SHEETS: Readonly<Record<Projection, Sheet>> = {
  plan: { name: 'Plan', across: 0, down: 2, downSign: 1, toViewer: [0, 1, 0] },
  'along-x': { name: 'Elevation x', across: 0, down: 1, downSign: -1, toViewer: [0, 0, 1] },
  'along-z': { name: 'Elevation z', across: 2, down: 1, downSign: -1, toViewer: [-1, 0, 0] },
};

export const PROJECTIONS = Object.keys(SHEETS) as readonly Projection[];

export const AXIS_NAMES = ['x', 'y', 'z'] as const;

/** Where a point of the set lies on the sheet. */
export function flat(point_m: Vec3, projection: Projection): Flat {
  const { across, down, downSign } = SHEETS[projection];
  return [point_m[across], downSign * point_m[down]];
}

/** The point with its place on the sheet replaced; what the sheet does not show stays. */
export function atPlace(point_m: Vec3, [u, v]: Flat, projection: Projection): Vec3 {
  const { across, down, downSign } = SHEETS[projection];
  const moved: [number, number, number] = [...point_m];
  moved[across] = u;
  moved[down] = downSign * v + 0;
  return moved;
}
