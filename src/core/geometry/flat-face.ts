import { scale, type Vec3 } from '../math/vec3.ts';
import { worldDirection, worldPoint } from './placement.ts';
import type { Shape } from './shape.ts';

/** A flat rectangle of a shape in the world; what openings and rounded corners take out of it is still counted in. */
export interface FlatFace {
  readonly centre_m: Vec3;
  readonly u: Vec3;
  readonly v: Vec3;
  readonly n: Vec3;
  readonly halfU_m: number;
  readonly halfV_m: number;
  /** Whether only the side that n points to is there to be seen. */
  readonly oneSided: boolean;
}

const AXES: readonly Vec3[] = [
  [1, 0, 0],
  [0, 1, 0],
  [0, 0, 1],
];

/** The faces of a panel or a box; none of a shape that is round or a triangle. */
export function flatFaces(shape: Shape): FlatFace[] {
  if (shape.kind === 'panel') {
    const { origin_m, x, y, z } = shape.placement;
    const [halfU_m, halfV_m] = shape.halfSize_m;
    return [{ centre_m: origin_m, u: x, v: y, n: z, halfU_m, halfV_m, oneSided: false }];
  }
  if (shape.kind !== 'box') return [];
  const { placement, halfSize_m } = shape;
  return [1, -1].flatMap((side) =>
    AXES.map((axis, k): FlatFace => {
      const [u, v] = k === 0 ? [1, 2] : k === 1 ? [0, 2] : [0, 1];
      return {
        centre_m: worldPoint(placement, scale(axis, side * halfSize_m[k]!)),
        u: worldDirection(placement, AXES[u]!),
        v: worldDirection(placement, AXES[v]!),
        n: worldDirection(placement, scale(axis, side)),
        halfU_m: halfSize_m[u]!,
        halfV_m: halfSize_m[v]!,
        oneSided: true,
      };
    }),
  );
}

export function faceRectangle_m2({ halfU_m, halfV_m }: FlatFace): number {
  return 4 * halfU_m * halfV_m;
}
