import type { LightModel } from '../../../core/light-model/light-model.ts';
import { add, scale, type Vec3 } from '../../../core/math/vec3.ts';
import { CLIP_stops, type Glint } from '../../../core/mirror/glint.ts';
import type { Camera } from '../../schema/camera.ts';
import type { SceneDocument } from '../../schema/document.ts';
import { burningGlints } from '../burning.ts';
import { cameraStanding, lampStanding } from '../lamp-standing.ts';
import { cameraAt, lampMovedTo } from '../moved.ts';
import { placeOnSolid } from '../place-on-solid.ts';
import { mirroringOnly } from '../seen-parts.ts';
import { mayMoveTo, type Standing } from '../standing.ts';
import { costOf, type LitMark, litMarks, type MarkCost } from './cost.ts';
import { type ChangeKind, cameraMoves, lampMoves, type Move } from './moves.ts';
import { smallestChange } from './smallest-change.ts';

/** A lamp that burns in a solid, in this camera's frame. */
export interface Burning {
  readonly lamp: string;
  readonly solid: string;
  readonly part: number;
  /** Such as: right side, right roof edge. */
  readonly side: string | null;
  readonly stops: number;
}

/** One thing moved, by the least that does, nothing else touched. */
export interface Cure {
  readonly change: ChangeKind;
  /** To a centimetre; until where it goes on to do, within what was searched. */
  readonly by_m: number;
  readonly until_m: number;
  readonly reach_m: number;
  /** Where the lamp or the camera then is, and how high above the ground it stands on. */
  readonly to_m: Vec3;
  readonly height_m: number;
  /**
   * The largest change, up or down, of the whole straight light at any mark; null without lit marks. Moving the camera
   * costs no light.
   */
  readonly cost_stops: number | null;
  readonly cost: MarkCost | null;
  /** What of this lamp still burns in this solid: only where the glint leaves its own surface and no more can be had. */
  readonly leaves: readonly Burning[];
  /** What burns then and did not before. */
  readonly appears: readonly Burning[];
}

export interface GlintCures {
  readonly lamp: string;
  readonly solid: string;
  /** The brightest of its glints, by which out, in and along are meant. */
  readonly glint: Burning;
  /** Each takes the lamp out of this solid, or the place where it shows out of frame; cheapest first. */
  readonly cures: readonly Cure[];
  /** Each takes it off the surface that it is on now, but other surfaces of the solid still carry it. */
  readonly partial: readonly Cure[];
}

/** A scene as one camera sees it. */
export interface SeenScene {
  readonly document: SceneDocument;
  readonly model: LightModel;
  readonly camera: Camera;
  readonly clip_stops?: number | undefined;
}

/**
 * Every lamp × solid that burns in frame, with its cures. Yields after every kind of change, so that whoever waits can
 * show how far it is, or give up.
 */
export function* searchCures(scene: SeenScene): Generator<void, readonly GlintCures[]> {
  const { document, model, camera } = scene;
  const burning = burningGlints(document, model, camera, undefined, scene.clip_stops);
  const marks = burning.length > 0 ? litMarks(document, model, camera) : [];
  const tripod = cameraStanding(document, model, camera);
  const found: GlintCures[] = [];
  for (const glint of brightestOfPairs(burning)) {
    const search = pairSearch(scene, burning, glint, tripod, marks);
    const cures: Cure[] = [];
    const partial: Cure[] = [];
    for (const move of search.moves) {
      const cure = search.cureBy(move);
      if (cure) (cure.leaves.length > 0 ? partial : cures).push(cure);
      yield;
    }
    found.push({
      lamp: model.lamps[glint.lamp]!.id,
      solid: model.owners[glint.owner]!.id,
      glint: named(scene, glint),
      cures: cures.sort(byCost),
      partial: partial.sort(byCost),
    });
  }
  return found;
}

/** All at once. */
export function curesOf(scene: SeenScene): readonly GlintCures[] {
  const search = searchCures(scene);
  for (;;) {
    const { done, value } = search.next();
    if (done) return value;
  }
}

function brightestOfPairs(burning: readonly Glint[]): Glint[] {
  return burning.filter(
    (glint, i) => burning.findIndex((g) => g.lamp === glint.lamp && g.owner === glint.owner) === i,
  );
}

function pairSearch(
  scene: SeenScene,
  before: readonly Glint[],
  glint: Glint,
  tripod: Standing,
  marks: readonly LitMark[],
) {
  const { document, model, camera, clip_stops = CLIP_stops } = scene;
  const lamp = document.lamps!.find((l) => l.id === model.lamps[glint.lamp]!.id)!;
  const stand = lampStanding(document, model, lamp);
  const placed = (move: Move, by_m: number) =>
    add(move.of === 'lamp' ? lamp.position_m : camera.position_m, scale(move.direction, by_m));
  const standing = (move: Move) => (move.of === 'lamp' ? stand : tripod);
  const own = mirroringOnly(model, (part) => model.parts[part]!.owner === glint.owner);
  const burns = (asked: LightModel, move: Move, by_m: number, lamps?: readonly number[]) => {
    const to = placed(move, by_m);
    return move.of === 'lamp'
      ? burningGlints(document, lampMovedTo(asked, document, lamp.id, to), camera, lamps, clip_stops)
      : burningGlints(document, asked, cameraAt(camera, to), lamps, clip_stops);
  };
  const ofPair = (g: Glint) => g.lamp === glint.lamp && g.owner === glint.owner;

  return {
    moves: [...lampMoves(lamp, stand, camera, glint), ...cameraMoves(camera, tripod)],
    cureBy(move: Move): Cure | null {
      // The second question is asked at much the same places as the first.
      const asked = new Map<number, readonly Glint[]>();
      const left = (by_m: number) => {
        const known = asked.get(by_m) ?? burns(own, move, by_m, [glint.lamp]);
        asked.set(by_m, known);
        return known;
      };
      const allowed = (by_m: number) => mayMoveTo(standing(move), placed(move, by_m));
      const gone = { allowed, cures: (by_m: number) => left(by_m).length === 0 };
      const offItsSurface = {
        allowed,
        cures: (by_m: number) => left(by_m).every((g) => g.part !== glint.part),
      };
      // A mesh is one surface of many triangles.
      const hasSurfaces = model.parts[glint.part]!.shape.kind !== 'triangle';
      const least =
        smallestChange(gone, move.reach_m) ??
        (hasSurfaces ? smallestChange(offItsSurface, move.reach_m) : null);
      if (!least) return null;
      const to_m = placed(move, least.by_m);
      const light = move.of === 'lamp' ? costOf(marks, glint.lamp, lamp.id, to_m) : null;
      const after = burns(model, move, least.by_m);
      const isNew = (g: Glint) => !before.some((b) => b.lamp === g.lamp && b.owner === g.owner);
      return {
        change: move.change,
        ...least,
        reach_m: move.reach_m,
        to_m,
        height_m: to_m[1] - standing(move).ground_m,
        cost_stops: move.of === 'camera' ? 0 : (light?.worst.change_stops ?? null),
        cost: light,
        leaves: after.filter(ofPair).map((g) => named(scene, g)),
        appears: after.filter(isNew).map((g) => named(scene, g)),
      };
    },
  };
}

function named({ document, model }: SeenScene, glint: Glint): Burning {
  const solid = model.owners[glint.owner]!.id;
  return {
    lamp: model.lamps[glint.lamp]!.id,
    solid,
    part: glint.part,
    side: placeOnSolid(document, solid, glint.point_m, glint.normal).side,
    stops: glint.stops,
  };
}

/** A third of a stop weighs as much as a metre; a camera moved is another picture; a new glint is no cure at all. */
const STOP_WEIGHT_m = 3;
const CAMERA_WEIGHT_m = 1;
const APPEARS_WEIGHT_m = 100;

function byCost(a: Cure, b: Cure): number {
  return weight_m(a) - weight_m(b);
}

function weight_m({ change, by_m, cost_stops, appears }: Cure): number {
  return (
    by_m +
    STOP_WEIGHT_m * Math.abs(cost_stops ?? 0) +
    (change.startsWith('camera') ? CAMERA_WEIGHT_m : 0) +
    (appears.length > 0 ? APPEARS_WEIGHT_m : 0)
  );
}
