import { add, scale, type Vec3 } from '../../core/math/vec3.ts';
import type { SceneDocument } from '../schema/document.ts';
import { levelToward, rightOf } from './directions.ts';
import { spotInView } from './in-view.ts';
import type { Surroundings } from './recipe.ts';
import { bodiesOf, hasFloor, standingLevel_m } from './standing-room.ts';
import { type FoundThing, findThing } from './things.ts';

/** Who or what the light is for. */
export interface Subject {
  /** Null where nothing is there yet: the place in view then. */
  readonly thing: FoundThing | null;
  /** What a lamp is aimed at. */
  readonly aim_m: Vec3;
  /** The level that it stands on. */
  readonly ground_m: number;
  /** Level, from the subject to the camera; toward +z where there is no camera. */
  readonly toCamera: Vec3;
}

/** Where faces are when nobody is there yet. */
const FACE_HEIGHT_m = 1.5;

/**
 * What was chosen last among marks, figures and lamps (of a lamp, what it is aimed at), else the first figure, else the first
 * mark, else the place in view.
 */
export function subjectOf(surroundings: Surroundings): Subject {
  const { document, chosen } = surroundings;
  const thing = lastLit(document, chosen) ?? firstSubject(document);
  return thing ? subjectAt(surroundings, thing) : emptySubject(surroundings);
}

/** So near to what a lamp is aimed at stands what it is for. */
const AIMED_AT_m = 1.5;

function lastLit(document: SceneDocument, chosen: readonly string[]): FoundThing | undefined {
  for (const id of [...chosen].reverse()) {
    const thing = findThing(document, id);
    if (thing?.list === 'marks' || thing?.list === 'figures') return thing;
    const lamp = document.lamps?.find((one) => one.id === id);
    const aimedAt = lamp && nearestOf(document, lamp.aim_m, AIMED_AT_m);
    if (aimedAt) return aimedAt;
  }
  return undefined;
}

/** The figure or the mark nearest to a point of the plan within reach, else the subject as above. */
export function subjectNear(surroundings: Surroundings, point_m: Vec3, reach_m: number): Subject {
  const nearest = nearestOf(surroundings.document, point_m, reach_m);
  return nearest ? subjectAt(surroundings, nearest) : subjectOf(surroundings);
}

function subjectAt(surroundings: Surroundings, thing: FoundThing): Subject {
  const aim_m = thing.aim_m!;
  return {
    thing,
    aim_m,
    ground_m: groundUnder(surroundings, thing),
    toCamera: towardCamera(surroundings, aim_m),
  };
}

function emptySubject(surroundings: Surroundings): Subject {
  const spot = spotInView(surroundings);
  const aim_m = add(spot, [0, FACE_HEIGHT_m, 0]);
  return { thing: null, aim_m, ground_m: spot[1], toCamera: towardCamera(surroundings, aim_m) };
}

function towardCamera({ camera }: Surroundings, from_m: Vec3): Vec3 {
  return camera ? levelToward(from_m, camera.position_m) : [0, 0, 1];
}

/**
 * The level that a figure stands on or a mark is over, y = 0 under a mark over which nothing is modelled; that of what is in
 * view for other things, which may float, hang or lie deeper than who looks at them.
 */
export function groundUnder(surroundings: Surroundings, { list, position_m }: FoundThing): number {
  const [x, y, z] = position_m!;
  const bodies = bodiesOf(surroundings.document);
  if (list === 'figures') return standingLevel_m(bodies, x, z, y);
  if (list !== 'marks') return spotInView(surroundings)[1];
  return hasFloor(bodies, x, z) ? standingLevel_m(bodies, x, z, y - FACE_HEIGHT_m) : Math.min(0, y);
}

function firstSubject({ figures, marks, ...others }: SceneDocument): FoundThing | undefined {
  const first = figures?.[0] ?? marks?.[0];
  return first && findThing({ ...others, figures, marks }, first.id);
}

function nearestOf(document: SceneDocument, [x, , z]: Vec3, reach_m: number): FoundThing | undefined {
  const away = (p: Vec3) => Math.hypot(p[0] - x, p[2] - z);
  const nearest = [...(document.figures ?? []), ...(document.marks ?? [])]
    .filter(({ position_m }) => away(position_m) <= reach_m)
    .sort((a, b) => away(a.position_m) - away(b.position_m))[0];
  return nearest && findThing(document, nearest.id);
}

/** A place beside the subject on the camera's right, on its ground. */
export function besideSubject(subject: Subject, by_m: number): Vec3 {
  const right = rightOf(scale(subject.toCamera, -1));
  return [subject.aim_m[0] + by_m * right[0], subject.ground_m, subject.aim_m[2] + by_m * right[2]];
}
