import { add, scale, type Vec3 } from '../../core/math/vec3.ts';
import type { Camera } from '../schema/camera.ts';
import { levelDistance_m, levelToward, turnedRight } from './directions.ts';
import { freshId, takenIds } from './fresh-names.ts';
import { groundOfCamera, reachToward_m, spotInView } from './in-view.ts';
import type { Made, Surroundings } from './recipe.ts';
import { pointToCentimetre } from './rounded.ts';
import { bodiesOf, standingLevel_m } from './standing-room.ts';
import { groundUnder, subjectNear, subjectOf } from './subject.ts';
import { findThing } from './things.ts';

const LENS_HEIGHT_m = 1.5;
const LOOK_HEIGHT_m = 1.4;
const DISTANCE_m = 6;
/** So near to a figure or a mark, a press on the plan means its face. */
const MEANT_m = 0.6;
const NEAREST_m = 0.5;

/** Settings to begin a night with: a wide lens nearly open, a shutter that does not beat with the mains. */
const FIRST_SETTINGS = {
  sensor_mm: [36, 24] as [number, number],
  aspect: 1.7778,
  focal_mm: 35,
  fNumber: 2.8,
  iso: 1600,
  whiteBalance_K: 4300,
};

/** Stand here, look there: two points of the plan. Settings are those of the camera that is looked through. */
export function makeCameraAt(surroundings: Surroundings, stand_m: Vec3, look_m: Vec3): Made {
  const { document, camera } = surroundings;
  const bodies = bodiesOf(document);
  const near_m = camera ? groundOfCamera(document, camera) : 0;
  const floor_m = standingLevel_m(bodies, stand_m[0], stand_m[2], near_m);
  const meant = subjectNear(surroundings, look_m, MEANT_m);
  const looked = meant.thing && levelDistance_m(meant.aim_m, look_m) <= 2 * MEANT_m ? meant.aim_m : null;
  const lookFloor_m = standingLevel_m(bodies, look_m[0], look_m[2], near_m);
  return placed(
    surroundings,
    [stand_m[0], floor_m + LENS_HEIGHT_m, stand_m[2]],
    looked ?? [look_m[0], lookFloor_m + LOOK_HEIGHT_m, look_m[2]],
  );
}

/** From which side something is looked at: as it faces, or as the camera sees it where it faces nowhere. */
export const CAMERA_SIDES = [
  'front',
  'three-quarter left',
  'three-quarter right',
  'left',
  'right',
  'back',
] as const;
export type CameraSide = (typeof CAMERA_SIDES)[number];
const SIDE_deg: Readonly<Record<CameraSide, number>> = {
  front: 0,
  'three-quarter left': -45,
  'three-quarter right': 45,
  left: -90,
  right: 90,
  back: 180,
};

/**
 * The same by choosing things: what is looked at, from which side of it (its own left and right), from how far before it.
 * Null where it has no place.
 */
export function makeCameraOn(
  surroundings: Surroundings,
  lookedAt: string,
  side: CameraSide,
  distance_m: number,
): Made | null {
  const thing = findThing(surroundings.document, lookedAt);
  if (!thing?.aim_m) return null;
  const toward = turnedRight(frontOf(surroundings, lookedAt, thing.aim_m), SIDE_deg[side]);
  const solid = surroundings.document.solids?.find(({ id }) => id === lookedAt);
  const from_m = Math.max(NEAREST_m, distance_m) + (solid ? reachToward_m(solid, toward) : 0);
  const stand_m = add(thing.aim_m, scale(toward, from_m));
  const ground_m = groundUnder(surroundings, thing);
  const floor_m = standingLevel_m(bodiesOf(surroundings.document), stand_m[0], stand_m[2], ground_m);
  return placed(surroundings, [stand_m[0], floor_m + LENS_HEIGHT_m, stand_m[2]], thing.aim_m);
}

/** Without a word where: before the subject, or beside the camera that there is. */
export function makeCamera(surroundings: Surroundings): Made {
  const { camera, document } = surroundings;
  if (camera) {
    const across = turnedRight(levelToward(camera.position_m, camera.look_m), 90);
    return placed(surroundings, add(camera.position_m, scale(across, 1)), camera.look_m);
  }
  const subject = subjectOf(surroundings);
  if (subject.thing?.list === 'figures') {
    return makeCameraOn(surroundings, subject.thing.id, 'front', DISTANCE_m)!;
  }
  const spot = spotInView(surroundings);
  const floor_m = standingLevel_m(bodiesOf(document), spot[0], spot[2] + DISTANCE_m, spot[1]);
  return placed(
    surroundings,
    [spot[0], floor_m + LENS_HEIGHT_m, spot[2] + DISTANCE_m],
    [spot[0], spot[1] + LOOK_HEIGHT_m, spot[2]],
  );
}

/** Where a thing faces: a figure by its heading, anything else toward the camera, else along +z. */
function frontOf({ document, camera }: Surroundings, id: string, aim_m: Vec3): Vec3 {
  const figure = document.figures?.find((one) => one.id === id);
  if (figure) return turnedRight([0, 0, 1], -(figure.heading_deg ?? 0));
  return camera ? levelToward(aim_m, camera.position_m) : [0, 0, 1];
}

function placed(surroundings: Surroundings, position_m: Vec3, look_m: Vec3): Made {
  const { document, camera } = surroundings;
  const letter = freeLetter(document.cameras ?? []);
  const name = `Camera ${letter}`;
  const at = pointToCentimetre(position_m);
  const looked = pointToCentimetre(look_m);
  const apart = levelDistance_m(at, looked) > 0.05 || Math.abs(at[1] - looked[1]) > 0.05;
  const {
    id: _id,
    name: _name,
    position_m: _p,
    look_m: _l,
    focus_m: _f,
    ...settings
  } = camera ??
  ({
    ...FIRST_SETTINGS,
    shutter_s: document.site?.mains?.hertz === 60 ? 1 / 60 : 1 / 50,
  } as Camera);
  const thing: Camera = {
    id: freshId(takenIds(document), letter),
    name,
    position_m: at,
    look_m: apart ? looked : [looked[0], looked[1], looked[2] - 1],
    ...settings,
  };
  return { commands: [{ do: 'add', to: 'cameras', thing }], chosen: [thing.id], step: `Add ${name}` };
}

const LETTERS = 'ABCDEFGHIJKLMNOPQRSTUVWXYZ';

/** Cameras are called by letters on set; past the alphabet by numbers. */
function freeLetter(cameras: readonly Camera[]): string {
  const used = new Set(
    cameras.flatMap(({ id, name }) => [id.toUpperCase(), ...(name ?? '').split(/[^A-Za-z]+/)]),
  );
  return [...LETTERS].find((letter) => !used.has(letter)) ?? String(cameras.length + 1);
}
