import { buildGeometry } from '../../../../src/core/geometry/geometry.ts';
import { nearestHit } from '../../../../src/core/geometry/ray-query.ts';
import { type Hit, newHit } from '../../../../src/core/geometry/ray-shape.ts';
import type { Shape } from '../../../../src/core/geometry/shape.ts';
import type { Vec3 } from '../../../../src/core/math/vec3.ts';

export type Cast = (
  o: Vec3,
  d: Vec3,
  tMin?: number,
) => { readonly t: number; readonly normal: Vec3; readonly front: boolean } | null;

/** Rays at a scene of one shape; null where they miss. */
export function castAt(shape: Shape): Cast {
  const geometry = buildGeometry([{ shape, substance: { kind: 'material', index: 0 }, owner: 0 }]);
  const hit: Hit = newHit();
  return (o, d, tMin = 0) =>
    nearestHit(geometry, ...o, ...d, tMin, Number.POSITIVE_INFINITY, hit)
      ? { t: hit.t, normal: [hit.nx, hit.ny, hit.nz], front: hit.front }
      : null;
}
