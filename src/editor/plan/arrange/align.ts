import type { Vec3 } from '../../../core/math/vec3.ts';
import { atPlace, type Flat, flat, type Projection } from '../drawing/projection.ts';
import { boundsOf } from '../drawing/viewport.ts';
import type { PlanThing } from './plan-things.ts';

/** Along which line of the sheet things are brought: the outermost of them, or the middle between the outermost two. */
export type Alignment = 'left' | 'centre' | 'right' | 'top' | 'middle' | 'bottom';

/** Where each thing goes. Things are aligned by what they are placed by, not by their outlines. */
export function aligned(
  things: readonly PlanThing[],
  alignment: Alignment,
  projection: Projection,
): ReadonlyMap<string, Vec3> {
  const places = things.map(({ position_m }) => flat(position_m, projection));
  const bounds = boundsOf(places);
  if (!bounds) return new Map();
  const { low_m, high_m } = bounds;
  const to = ([u, v]: Flat): Flat => {
    switch (alignment) {
      case 'left':
        return [low_m[0], v];
      case 'centre':
        return [(low_m[0] + high_m[0]) / 2, v];
      case 'right':
        return [high_m[0], v];
      case 'top':
        return [u, low_m[1]];
      case 'middle':
        return [u, (low_m[1] + high_m[1]) / 2];
      case 'bottom':
        return [u, high_m[1]];
    }
  };
  return new Map(
    things.map(({ id, position_m }, i) => [id, atPlace(position_m, to(places[i]!), projection)]),
  );
}

/** All at the height of the last one. */
export function atSameHeight(things: readonly PlanThing[]): ReadonlyMap<string, Vec3> {
  const height_m = things.at(-1)?.position_m[1] ?? 0;
  return new Map(things.map(({ id, position_m: [x, , z] }) => [id, [x, height_m, z] as Vec3]));
}
