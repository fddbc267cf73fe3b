import { add, scale, type Vec3 } from '../../core/math/vec3.ts';
import type { Solid } from '../schema/solid.ts';
import { headingOf_deg } from './directions.ts';
import { freshId, freshName, takenIds } from './fresh-names.ts';
import type { GenericSolid, SolidBody } from './generic-solids.ts';
import { freeSpot, intoView, spotInView } from './in-view.ts';
import { onGround } from './make-figure.ts';
import type { Made, Surroundings } from './recipe.ts';
import { pointToCentimetre } from './rounded.ts';

/** Between what is in view and the side of a vehicle behind it. */
const CLEARANCE_m = 1.5;

/**
 * A thing of the set on the ground: in view or where the plan was pressed. Grounds lie under it all, vehicles stand behind
 * it.
 */
export function makeSolid(surroundings: Surroundings, generic: GenericSolid, point_m?: Vec3): Made {
  const { body, lift_m = 0 } = generic;
  const turn_deg = headingFor(surroundings, generic);
  const [x, y, z] = placeFor(surroundings, generic, point_m);
  const name = freshName(surroundings.document, generic.name);
  const solid = {
    id: freshId(takenIds(surroundings.document), name),
    name,
    position_m: pointToCentimetre([x, y + lift_m + middleOver_m(body, generic.ground === true), z]),
    ...(turn_deg === 0 ? {} : { rotation_deg: [0, turn_deg, 0] }),
    ...body,
  } as Solid;
  return { commands: [{ do: 'add', to: 'solids', thing: solid }], chosen: [solid.id], step: `Add ${name}` };
}

function placeFor(
  surroundings: Surroundings,
  { body, ground }: GenericSolid,
  point_m: Vec3 | undefined,
): Vec3 {
  if (point_m) return onGround(surroundings, point_m);
  if (ground) {
    const [x, , z] = spotInView(surroundings);
    return [Math.round(x), 0, Math.round(z)];
  }
  if (body.shape === 'vehicle') {
    const back_m = body.size_m[2] / 2 + CLEARANCE_m;
    return onGround(surroundings, add(spotInView(surroundings), scale(intoView(surroundings), back_m)));
  }
  return freeSpot(surroundings, companionRadius_m(body));
}

/** Large things are put in view whatever stands there: a wall is meant to be behind someone. */
function companionRadius_m(body: SolidBody): number {
  switch (body.shape) {
    case 'box':
      return Math.min(1, Math.hypot(body.size_m[0], body.size_m[2]) / 2);
    case 'panel':
    case 'pane':
      return Math.min(1, body.size_m[0] / 2);
    case 'cylinder':
    case 'sphere':
    case 'capsule':
      return body.radius_m;
    default:
      return 1;
  }
}

/** Fronts toward the camera; vehicles square to the plan with their right side to it. */
function headingFor(surroundings: Surroundings, { body, facesCamera }: GenericSolid): number {
  const heading_deg = headingOf_deg(scale(intoView(surroundings), -1));
  if (facesCamera) return heading_deg;
  return body.shape === 'vehicle' ? (Math.round(heading_deg / 90) * 90) % 360 : 0;
}

/** Of the point that `position_m` names over the lowest one; of a ground, under its top. */
function middleOver_m(body: SolidBody, ground: boolean): number {
  switch (body.shape) {
    case 'box':
      return ((ground ? -1 : 1) * body.size_m[1]) / 2;
    case 'cylinder':
      return body.height_m / 2;
    case 'sphere':
      return body.radius_m;
    case 'capsule':
      return body.length_m / 2;
    case 'panel':
    case 'pane':
      return body.size_m[1] / 2;
    case 'vehicle':
    case 'mesh':
      return 0;
  }
}
