import type { Vec3 } from '../../../core/math/vec3.ts';
import type { Command } from '../../../scene/commands/command.ts';
import type { HazeRegionSettings } from '../../../scene/schema/document.ts';
import type { Figure } from '../../../scene/schema/figure.ts';
import type { Site } from '../../../scene/schema/site.ts';
import type { Solid } from '../../../scene/schema/solid.ts';
import { type Flat, flat } from '../drawing/projection.ts';
import { bodyOutline } from './body-outline.ts';
import { hazeBoxRing } from './haze-box.ts';
import { linePath, ringPath } from './path-data.ts';

/** A thing that is not there yet, as the plan hints at it. */
export interface Ghost {
  readonly id: string;
  /** The outline of a body, the line of a path, the edge of an area. */
  readonly d?: string;
  /** Where a sign would stand. */
  readonly at?: Flat;
}

type AreaPatch = Pick<Site, 'keepOut'> & { readonly regions?: readonly HazeRegionSettings[] };

/** What an edit would put on the plan. */
export function ghostsOf(command: Command): readonly Ghost[] {
  if (command.do === 'change-section') {
    const { keepOut, regions } = (command.patch ?? {}) as AreaPatch;
    const area = keepOut?.at(-1);
    const box = regions?.at(-1);
    return [
      ...(area ? [{ id: area.id, d: ringPath(area.outline_m) }] : []),
      ...(box ? [{ id: 'haze', d: ringPath(hazeBoxRing(box, 'plan')) }] : []),
    ];
  }
  if (command.do !== 'add') return [];
  const { id } = command.thing;
  switch (command.to) {
    case 'solids':
      return [{ id, d: bodyOutline(command.thing as Solid, 'plan').body }];
    case 'figures':
      return [{ id, d: bodyOutline(command.thing as Figure, 'plan').body }];
    case 'lamps': {
      const { position_m, aim_m } = command.thing as unknown as Record<'position_m' | 'aim_m', Vec3>;
      const [from, to] = [flat(position_m, 'plan'), flat(aim_m, 'plan')];
      return [{ id, d: linePath([from, to]), at: from }];
    }
    case 'cameras': {
      const { position_m, look_m } = command.thing as unknown as Record<'position_m' | 'look_m', Vec3>;
      const [from, to] = [flat(position_m, 'plan'), flat(look_m, 'plan')];
      return [{ id, d: linePath([from, to]), at: from }];
    }
    case 'marks':
      return [{ id, at: flat((command.thing as unknown as { position_m: Vec3 }).position_m, 'plan') }];
    case 'paths': {
      const { points } = command.thing as unknown as { points: readonly { position_m: Vec3 }[] };
      return [{ id, d: linePath(points.map(({ position_m }) => flat(position_m, 'plan'))) }];
    }
    default:
      return [];
  }
}
