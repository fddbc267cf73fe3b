import { placeInFrame } from '../../core/camera/thin-lens.ts';
import { radiansFromDegrees } from '../../core/math/angle.ts';
import type { Vec3 } from '../../core/math/vec3.ts';
import { lensOf } from '../camera/scene-camera.ts';
import { inFrame } from '../framing/sighting.ts';
import { keepOutAt, keepOutsOf } from '../mirror/keep-out.ts';
import { levelDistance_m, turnedRight } from './directions.ts';
import type { LampJob } from './lamp-job.ts';
import type { Surroundings } from './recipe.ts';
import { pointToCentimetre } from './rounded.ts';
import { bodiesOf, hasFloor, isInside, seesFreely, standingLevel_m } from './standing-room.ts';
import type { Subject } from './subject.ts';

export interface LampPlaceRequest {
  readonly job: LampJob;
  readonly around_deg: number;
  readonly above_deg: number;
  readonly distance_m: number;
  /** How high the stand reaches over its ground, and how wide it stands. */
  readonly maxHeight_m: number;
  readonly footRadius_m: number;
}

const LOWEST_m = 0.4;
const LARGEST_STEP_m = 0.5;
/** Between the middles of two stands. */
const APART_m = 0.8;
/** Tried in turn: farther round before much nearer, as light from behind may come from either side. */
const SHARES = [1, 0.8, 0.65, 0.5, 0.35];
const TURNS_deg = [0, 15, -15, 30, -30];
const TURNS_BEHIND_deg = [...TURNS_deg, 45, -45, 60, -60, 75, -75];

/**
 * Where the face of a lamp goes so that it does its job: on ground as high as the subject's, out of keep-out areas, in free
 * sight of the subject, clear of other stands and, unless it is a backlight, out of the camera's frame. Where not all can be
 * had, what comes first in that list counts for more than all that follows; of places as good, the one tried first wins.
 */
export function lampPlace(surroundings: Surroundings, subject: Subject, request: LampPlaceRequest): Vec3 {
  const conditions = conditionsFor(surroundings, subject, request);
  const turns_deg = request.job === 'back' || request.job === 'rim' ? TURNS_BEHIND_deg : TURNS_deg;
  let best: { place: Vec3; kept: number } | null = null;
  for (const share of SHARES)
    for (const turn_deg of turns_deg) {
      const place = candidate(surroundings, subject, request, share, turn_deg);
      const kept = conditions.reduce((sum, holds) => 2 * sum + (holds(place) ? 1 : 0), 0);
      if (kept === 2 ** conditions.length - 1) return place;
      if (!best || kept > best.kept) best = { place, kept };
    }
  return best!.place;
}

/** From the weightiest to the least. */
function conditionsFor(
  { document, camera }: Surroundings,
  { aim_m, ground_m }: Subject,
  { job, footRadius_m }: LampPlaceRequest,
): readonly ((place: Vec3) => boolean)[] {
  const bodies = bodiesOf(document);
  const keepOuts = keepOutsOf(document);
  const lens = camera && job !== 'back' ? lensOf(camera) : null;
  const needsFloor = hasFloor(bodies, aim_m[0], aim_m[2]);
  return [
    (place) => {
      const [x, , z] = place;
      const step_m = standingLevel_m(bodies, x, z, ground_m) - ground_m;
      const floor = !needsFloor || hasFloor(bodies, x, z);
      return floor && Math.abs(step_m) <= LARGEST_STEP_m && !isInside(bodies, place);
    },
    ([x, , z]) => keepOutAt(keepOuts, x, z, footRadius_m) === undefined,
    (place) => seesFreely(bodies, place, aim_m),
    (place) =>
      (document.lamps ?? []).every(({ position_m }) => levelDistance_m(position_m, place) >= APART_m),
    (place) => !lens || !inFrame(placeInFrame(lens, place)),
  ];
}

function candidate(
  { document }: Surroundings,
  { aim_m, ground_m, toCamera }: Subject,
  { around_deg, above_deg, distance_m, maxHeight_m }: LampPlaceRequest,
  share: number,
  turn_deg: number,
): Vec3 {
  const toward = turnedRight(toCamera, around_deg + turn_deg);
  const level_m = share * distance_m * Math.cos(radiansFromDegrees(above_deg));
  const x = aim_m[0] + level_m * toward[0];
  const z = aim_m[2] + level_m * toward[2];
  const floor_m = standingLevel_m(bodiesOf(document), x, z, ground_m);
  return pointToCentimetre([x, heightOver(floor_m, aim_m[1], level_m, above_deg, maxHeight_m), z]);
}

/** So high that it shines down at an angle, as far as its stand reaches. */
export function heightOver(
  floor_m: number,
  aimHeight_m: number,
  level_m: number,
  above_deg: number,
  maxHeight_m: number,
): number {
  const wanted = aimHeight_m + level_m * Math.tan(radiansFromDegrees(above_deg));
  return Math.min(floor_m + maxHeight_m, Math.max(floor_m + LOWEST_m, wanted));
}
