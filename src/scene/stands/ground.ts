import { nearestHit } from '../../core/geometry/ray-query.ts';
import { newHit } from '../../core/geometry/ray-shape.ts';
import type { LightModel } from '../../core/light-model/light-model.ts';
import type { Vec3 } from '../../core/math/vec3.ts';

/** What heights of stands are counted from. */
export interface Ground {
  readonly level_m: number;
  /** Name of what lies there; null where nothing is modelled below, and the ground is taken to be y = 0. */
  readonly on: string | null;
}

const LOOK_DOWN_m = 100;
const hit = newHit();

/**
 * The ground of what stands at a place: the first thing that is modelled right below it, quay, platform or street. A place
 * under y = 0 with nothing below it stands on itself.
 */
export function groundOf({ geometry, owners, parts }: LightModel, [x, y, z]: Vec3): Ground {
  if (!nearestHit(geometry, x, y, z, 0, -1, 0, 0, LOOK_DOWN_m, hit))
    return { level_m: Math.min(0, y), on: null };
  return { level_m: y - hit.t, on: owners[parts[hit.shape]!.owner]!.name };
}
