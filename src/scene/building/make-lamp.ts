import { zeroOf } from '../../core/exposure/zero.ts';
import { add, distance, type Vec3 } from '../../core/math/vec3.ts';
import { calibrationOf, exposureOf } from '../camera/scene-camera.ts';
import { entryNamed, LIBRARY } from '../library/library.ts';
import type { Head } from '../schema/head.ts';
import type { Lamp } from '../schema/lamp.ts';
import { levelDistance_m } from './directions.ts';
import { freshId, freshName, numberedName, takenIds } from './fresh-names.ts';
import { JOB_PLANS, jobFor, type LampJob, peakOf_cd } from './lamp-job.ts';
import { heightOver, lampPlace } from './lamp-place.ts';
import type { Made, Surroundings } from './recipe.ts';
import { pointToCentimetre } from './rounded.ts';
import { bodiesOf, standingLevel_m } from './standing-room.ts';
import { besideSubject, type Subject, subjectNear, subjectOf } from './subject.ts';
import { supplyWithRoom } from './supply-with-room.ts';

/** Heavier heads get the larger stand. */
const HEAVY_kg = 5;
/** Lighter ones are hung or stood somewhere on the set: a bulb, a tube. */
const PRACTICAL_kg = 1;
const PRACTICAL_HEIGHT_m = 2;
/** Typical of the trade: common practice, no source. */
const LIGHT_STAND = { maxHeight_m: 2.8, footRadius_m: 0.45, mass_kg: 3 };
const HEAVY_STAND = { maxHeight_m: 3.8, footRadius_m: 0.6, mass_kg: 8 };

/** Without a camera to say: f/2.8, 1/50 s, ISO 1600 for a dome. */
const ELSE_lx = 81;
const UNKNOWN_DISTANCE_m = 4;
const LEAST_LEVEL = 0.05;
/** Discharge lamps dim little or not at all. */
const LEAST_DISCHARGE_LEVEL = 0.5;
const AIM_REACH_m = 15;

/**
 * A lamp with a head of the document or the library, aimed at the subject, on a stand, on the supply that has room. Left to
 * itself it goes where a lamp of its job goes, at the distance, and at the level, at which the job's stops are met by the
 * inverse square law in clear air; or it stands where the plan was pressed.
 */
export function makeLamp(
  surroundings: Surroundings,
  headName: string,
  job: LampJob | null,
  point_m?: Vec3,
): Made {
  const { document } = surroundings;
  const head = entryNamed(document.heads, LIBRARY.heads, headName)!;
  const practical = job === null && (head.mass_kg ?? HEAVY_kg) < PRACTICAL_kg;
  const subject = point_m ? subjectNear(surroundings, point_m, AIM_REACH_m) : subjectOf(surroundings);
  const place = practical
    ? hung(surroundings, subject, point_m)
    : onStand(surroundings, head, subject, job, point_m);
  const name = job ? freshName(document, JOB_PLANS[job].name) : numberedName(document, 'Lamp');
  const supply = supplyWithRoom(document, headName);
  const lamp: Lamp = {
    id: freshId(takenIds(document), name),
    name,
    head: headName,
    ...place,
    ...(supply === undefined ? {} : { supply }),
  };
  return {
    commands: [{ do: 'add', to: 'lamps', thing: lamp }],
    chosen: [lamp.id],
    step: `Add ${name}`,
  };
}

type Place = Pick<Lamp, 'position_m' | 'aim_m' | 'level' | 'stand'>;

function onStand(
  surroundings: Surroundings,
  head: Head,
  subject: Subject,
  wantedJob: LampJob | null,
  point_m: Vec3 | undefined,
): Place {
  const job = wantedJob ?? jobFor(head, subject, surroundings.document.lamps ?? []);
  const plan = JOB_PLANS[job];
  const stand = (head.mass_kg ?? HEAVY_kg) < HEAVY_kg ? LIGHT_STAND : HEAVY_STAND;
  const wanted_lx = zero_lx(surroundings) * 2 ** plan.wanted_stops;
  const peak_cd = peakOf_cd(head);
  const reaches_m = peak_cd === null ? UNKNOWN_DISTANCE_m : Math.sqrt(peak_cd / wanted_lx);
  const position_m = point_m
    ? standingAt(surroundings, subject, point_m, plan.above_deg, stand.maxHeight_m)
    : lampPlace(surroundings, subject, {
        job,
        around_deg: plan.around_deg,
        above_deg: plan.above_deg,
        distance_m: Math.min(plan.farthest_m, Math.max(plan.nearest_m, reaches_m)),
        maxHeight_m: stand.maxHeight_m,
        footRadius_m: stand.footRadius_m,
      });
  const aim_m = aimFrom(position_m, subject);
  const level =
    peak_cd === null ? 1 : levelFor(head, (wanted_lx * distance(position_m, aim_m) ** 2) / peak_cd);
  return {
    position_m: pointToCentimetre(position_m),
    aim_m,
    ...(level < 1 ? { level } : {}),
    stand: { ...stand },
  };
}

function standingAt(
  { document }: Surroundings,
  { aim_m, ground_m }: Subject,
  [x, , z]: Vec3,
  above_deg: number,
  maxHeight_m: number,
): Vec3 {
  const floor_m = standingLevel_m(bodiesOf(document), x, z, ground_m);
  return [x, heightOver(floor_m, aim_m[1], levelDistance_m([x, 0, z], aim_m), above_deg, maxHeight_m), z];
}

/** A practical has no stand and shines down. */
function hung(surroundings: Surroundings, subject: Subject, point_m: Vec3 | undefined): Place {
  const [x, , z] = point_m ?? besideSubject(subject, 1);
  const floor_m = standingLevel_m(bodiesOf(surroundings.document), x, z, subject.ground_m);
  const position_m = pointToCentimetre([x, floor_m + PRACTICAL_HEIGHT_m, z]);
  return { position_m, aim_m: pointToCentimetre(add(position_m, [0, -1, 0])) };
}

/** At the subject, or straight down from a lamp that is right there. */
function aimFrom(position_m: Vec3, subject: Subject): [number, number, number] {
  const aim_m = pointToCentimetre(subject.aim_m);
  return distance(position_m, aim_m) > 0.1 ? aim_m : pointToCentimetre(add(position_m, [0, -1, 0]));
}

function zero_lx({ document, camera }: Surroundings): number {
  return camera ? zeroOf(exposureOf(camera), calibrationOf(document)).dome_lx : ELSE_lx;
}

/** In steps of 5 %. */
function levelFor({ electrical }: Head, wanted: number): number {
  const least = electrical?.kind === 'discharge' ? LEAST_DISCHARGE_LEVEL : LEAST_LEVEL;
  return Number(Math.min(1, Math.max(least, Math.round(20 * wanted) / 20)).toFixed(2));
}
