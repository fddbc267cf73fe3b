import { add, normalize, scale, subtract, type Vec3 } from '../../core/math/vec3.ts';
import type { Mark } from '../schema/mark.ts';
import { faceMark, rimMark } from './figure-marks.ts';
import { freshId, freshName, numberedName, takenIds } from './fresh-names.ts';
import { freeSpot } from './in-view.ts';
import { onGround } from './make-figure.ts';
import type { Made, Surroundings } from './recipe.ts';
import { pointToCentimetre } from './rounded.ts';
import { bodiesOf, surfaceAlong } from './standing-room.ts';

const FACE_HEIGHT_m = 1.6;
/** A cell laid on a surface sits a little off it. */
const OFF_m = 0.02;

/** A dome at face height, toward the camera. */
export function makeMarkInAir(surroundings: Surroundings, point_m?: Vec3): Made {
  const [x, y, z] = point_m ? onGround(surroundings, point_m) : freeSpot(surroundings, 0.1);
  return added(surroundings, numberedName(surroundings.document, 'Mark'), {
    position_m: pointToCentimetre([x, y + FACE_HEIGHT_m, z]),
    facing: 'camera',
    receptor: 'dome',
  });
}

/** A flat cell that lies on the ground. */
export function makeGroundMark(surroundings: Surroundings, point_m?: Vec3): Made {
  const [x, y, z] = point_m ? onGround(surroundings, point_m) : freeSpot(surroundings, 0.1);
  return added(surroundings, numberedName(surroundings.document, 'Ground'), {
    position_m: pointToCentimetre([x, y + OFF_m, z]),
    facing: [0, 1, 0],
    receptor: 'flat',
  });
}

/** A flat cell on the first surface that the middle of the frame meets. Null where it meets none. */
export function makeSurfaceMark(surroundings: Surroundings): Made | null {
  const { document, camera } = surroundings;
  if (!camera) return null;
  const ahead = normalize(subtract(camera.look_m, camera.position_m));
  const surface = surfaceAlong(bodiesOf(document), camera.position_m, ahead);
  if (!surface) return null;
  const { point_m, normal, solid } = surface;
  const [nx, ny, nz] = normal.map((component) => Number(component.toFixed(3)) + 0) as [
    number,
    number,
    number,
  ];
  return added(surroundings, freshName(document, `${solid.name ?? solid.id}, surface`), {
    position_m: pointToCentimetre(add(point_m, scale(normal, OFF_m))),
    facing: [nx, ny, nz],
    receptor: 'flat',
  });
}

/** On the face or the rim of the figure that was chosen last. Null where none is chosen. */
export function makeFigureMark(surroundings: Surroundings, where: 'face' | 'rim'): Made | null {
  const { document, chosen } = surroundings;
  const figure = document.figures?.findLast(({ id }) => chosen.includes(id));
  if (!figure) return null;
  const mark = where === 'face' ? faceMark(document, figure) : rimMark(surroundings, figure);
  return madeOf(mark);
}

function added({ document }: Surroundings, name: string, mark: Omit<Mark, 'id' | 'name'>): Made {
  return madeOf({ id: freshId(takenIds(document), name), name, ...mark });
}

function madeOf(mark: Mark): Made {
  return {
    commands: [{ do: 'add', to: 'marks', thing: mark }],
    chosen: [mark.id],
    step: `Add ${mark.name ?? mark.id}`,
  };
}
