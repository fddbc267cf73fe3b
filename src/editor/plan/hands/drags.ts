import type { Vec3 } from '../../../core/math/vec3.ts';
import type { Command } from '../../../scene/commands/command.ts';
import type { SceneDocument } from '../../../scene/schema/document.ts';
import { kept, placeThings } from '../arrange/place-things.ts';
import { type PlanThing, thingNamed } from '../arrange/plan-things.ts';
import { caughtHeading_deg, headingOf_deg, turnThing } from '../arrange/turn.ts';
import { atPlace, type Flat, flat, type Projection } from '../drawing/projection.ts';
import { aimOf } from './handles.ts';
import { freeMove, type Guide, type SnapTargets, snapMove } from './snap.ts';

/** What a drag makes of the scene that it began in, wherever the pointer is now. */
export interface Drag {
  /** What undo calls it. */
  readonly step: string;
  to(at_m: Flat, free: boolean): { readonly commands: readonly Command[]; readonly guides: readonly Guide[] };
}

/** From where, onto what and how near a drag catches. */
export interface Hold {
  readonly document: SceneDocument;
  readonly projection: Projection;
  readonly from_m: Flat;
  readonly targets: SnapTargets;
  readonly reach_m: number;
}

/** Things over the sheet, the one in hand first, and what goes along with them without catching anywhere itself. */
export function dragThings(hold: Hold, things: readonly PlanThing[], along: readonly PlanThing[] = []): Drag {
  const { document, projection } = hold;
  const anchors = things.map(({ position_m }) => flat(position_m, projection));
  return {
    step: stepFor('Move', things),
    to(at_m, free) {
      const { du_m, dv_m, guides } = bent(hold, anchors, at_m, free);
      const places = new Map(
        [...things, ...along].map(({ id, position_m }): [string, Vec3] => {
          const [u, v] = flat(position_m, projection);
          return [id, atPlace(position_m, [u + du_m, v + dv_m], projection)];
        }),
      );
      return { commands: placeThings(document, places), guides };
    },
  };
}

/** One thing up and down. */
export function dragHeight(hold: Hold, thing: PlanThing): Drag {
  const { document, projection, from_m } = hold;
  const [u, v] = flat(thing.position_m, projection);
  return {
    step: stepFor('Raise', [thing]),
    to(at_m, free) {
      const { dv_m, guides } = bent(hold, [[u, v]], [from_m[0], at_m[1]], free);
      const places = new Map([[thing.id, atPlace(thing.position_m, [u, v + dv_m], projection)]]);
      return {
        commands: placeThings(document, places),
        guides: guides.filter(({ axis }) => axis === 'down'),
      };
    },
  };
}

/** The point that a lamp is aimed at or a camera looks at. */
export function dragAim(hold: Hold, id: string): Drag {
  const { document, projection } = hold;
  const aim = aimOf(document, id)!;
  const from = flat(aim.point_m, projection);
  return {
    step: stepFor('Aim', [thingNamed(document, id)!]),
    to(at_m, free) {
      const { du_m, dv_m, guides } = bent(hold, [from], at_m, free);
      const point_m = kept(atPlace(aim.point_m, [from[0] + du_m, from[1] + dv_m], projection));
      return { commands: [{ do: 'change', id, patch: { [aim.field]: point_m } }], guides };
    },
  };
}

/** One point of a path; the others stay. */
export function dragPathPoint(hold: Hold, id: string, index: number): Drag {
  const { document, projection } = hold;
  const { points } = document.paths!.find((path) => path.id === id)!;
  const point = points[index]!;
  const from = flat(point.position_m, projection);
  return {
    step: stepFor('Move a point of', [thingNamed(document, id)!]),
    to(at_m, free) {
      const { du_m, dv_m, guides } = bent(hold, [from], at_m, free);
      const to: Flat = [from[0] + du_m, from[1] + dv_m];
      const position_m = kept(atPlace(point.position_m, to, projection));
      const patch = { points: points.with(index, { ...point, position_m }) };
      return { commands: [{ do: 'change', id, patch }], guides };
    },
  };
}

/** One thing about its upright axis, as far as the pointer goes round it. */
export function dragHeading({ document, projection, from_m }: Hold, id: string): Drag {
  const thing = thingNamed(document, id)!;
  const [u, v] = flat(thing.position_m, projection);
  const angle = (at_m: Flat) => (Math.atan2(at_m[0] - u, at_m[1] - v) * 180) / Math.PI;
  const before_deg = headingOf_deg(document, id)!;
  const from_deg = angle(from_m);
  return {
    step: stepFor('Turn', [thing]),
    to(at_m, free) {
      const heading_deg = caughtHeading_deg(before_deg + angle(at_m) - from_deg, !free);
      return { commands: turnThing(document, id, heading_deg), guides: [] };
    },
  };
}

function bent({ from_m, targets, reach_m }: Hold, anchors: readonly Flat[], at_m: Flat, free: boolean) {
  const [du_m, dv_m] = [at_m[0] - from_m[0], at_m[1] - from_m[1]];
  return free ? freeMove(anchors, du_m, dv_m) : snapMove(anchors, du_m, dv_m, targets, reach_m);
}

/** "Move Backlight", "Move 3 things". */
export function stepFor(what: string, things: readonly PlanThing[]): string {
  return things.length === 1 ? `${what} ${things[0]!.name}` : `${what} ${things.length} things`;
}
