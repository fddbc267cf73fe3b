import type { Vec3 } from '../../core/math/vec3.ts';
import type { Figure, POSES } from '../schema/figure.ts';
import { headingOf_deg, levelToward } from './directions.ts';
import { faceMark, rimMark } from './figure-marks.ts';
import { freshId, numberedName, takenIds } from './fresh-names.ts';
import { freeSpot, spotInView } from './in-view.ts';
import type { Made, Surroundings } from './recipe.ts';
import { pointToCentimetre } from './rounded.ts';
import { bodiesOf, standingLevel_m } from './standing-room.ts';

const RADIUS_m = 0.35;

/** A person who looks at the camera, with a mark on the face and, if wanted, one on the rim. */
export function makeFigure(
  surroundings: Surroundings,
  pose: (typeof POSES)[number],
  rim: boolean,
  point_m?: Vec3,
): Made {
  const { document, camera } = surroundings;
  const position_m = point_m ? onGround(surroundings, point_m) : freeSpot(surroundings, RADIUS_m);
  const name = numberedName(document, 'Figure');
  const figure: Figure = {
    id: freshId(takenIds(document), name),
    name,
    position_m: [...position_m],
    heading_deg: camera ? headingOf_deg(levelToward(position_m, camera.position_m)) : 0,
    pose,
    height_m: 1.72,
    skin: 'skin-mid',
    upper: 'wool-grey',
    lower: 'denim-blue',
  };
  const face = faceMark(document, figure);
  const marks = rim ? [face, rimMark(surroundings, figure)] : [face];
  return {
    commands: [
      { do: 'add', to: 'figures', thing: figure },
      ...marks.map((thing) => ({ do: 'add', to: 'marks', thing }) as const),
    ],
    chosen: [figure.id],
    step: `Add ${name}`,
  };
}

/** The place on the ground under a point of the plan, on the level of what is in view. */
export function onGround(surroundings: Surroundings, [x, , z]: Vec3): Vec3 {
  const near_m = spotInView(surroundings)[1];
  return pointToCentimetre([x, standingLevel_m(bodiesOf(surroundings.document), x, z, near_m), z]);
}
