import { normalize, subtract, type Vec3 } from '../../core/math/vec3.ts';
import { lensOf } from '../camera/scene-camera.ts';
import { problemAt, SceneError } from '../problems/problem.ts';
import { burningGlints } from './burning.ts';
import { brightestOf, litMarks } from './cures/cost.ts';
import type { SeenScene } from './cures/cures.ts';
import { grownBy, keepOutsOf } from './keep-out.ts';
import { lampStanding } from './lamp-standing.ts';
import { lampMovedTo } from './moved.ts';
import { namedIn } from './named-in.ts';
import {
  area_m2,
  difference,
  nearestOnEdge,
  type PlanPoint,
  type PlanRegion,
  rectangle,
  regionHolds,
  stretchesAlong,
} from './plan.ts';
import { mirroringOnly, seenParts } from './seen-parts.ts';
import { fitsAt } from './standing.ts';
import { type StopContour, stopContours } from './stop-contours.ts';
import { latticeOver, tracedRegion } from './traced-region.ts';

/**
 * Where on plan a lamp may stand, at its present height and aimed where it is aimed, so that none of its glints burns in a
 * camera's frame.
 *
 * Flat faces alone could be had exactly, by projecting what the camera sees of them from its mirror image onto the lamp's
 * height. That knows nothing of rounded edges, of bodies in the way between glint and lamp, of finishes that spread, of
 * the lamp's beam. So the question that `glints` answers is asked point by point instead, on a lattice that is fine only
 * along the border, and the border is bisected: what holds of a glint holds of the region, whatever made the glint.
 * Corners of the border are cut by up to half the spacing; a clear or a burning patch narrower than four spacings that
 * lies by itself may be missed.
 */
export interface ClearRegionRequest {
  readonly lamp: string;
  /** Only glints in these solids count; all when left out. */
  readonly solids?: readonly string[] | undefined;
  /** Corners of the rectangle that is looked at; when left out, REACH_m each way from the lamp. */
  readonly low_m?: PlanPoint | undefined;
  readonly high_m?: PlanPoint | undefined;
  readonly spacing_m?: number | undefined;
  /** The mark of the stop contours; the one that the lamp lights most when left out. */
  readonly mark?: string | undefined;
}

export interface ClearRegion {
  readonly lamp: string;
  readonly camera: string;
  /** The only ones whose glints count; null for all. */
  readonly solids: readonly string[] | null;
  readonly height_m: number;
  readonly low_m: PlanPoint;
  readonly high_m: PlanPoint;
  readonly spacing_m: number;
  /** Clear of glints, of solids and of keep-out areas. */
  readonly clear: PlanRegion;
  readonly clear_m2: number;
  readonly rectangle_m2: number;
  /** Whether the lamp is clear where it stands, and else where it would be, nearest by. */
  readonly clearHere: boolean;
  readonly nearest: { readonly at_m: PlanPoint; readonly distance_m: number } | null;
  /** The clear stretches straight back and forward along its aim and to both sides of it, from where it stands. */
  readonly ways: readonly Way[];
  /** What was taken out: keep-out areas, each wider by the foot of the stand. */
  readonly keptOut: readonly { readonly id: string; readonly name: string; readonly region: PlanRegion }[];
  /** Change of the whole straight light at a mark against the present; null without a lit mark. */
  readonly stops: {
    readonly mark: string;
    readonly name: string;
    readonly contours: readonly StopContour[];
  } | null;
}

export interface Way {
  readonly way: 'back' | 'forward' | 'left' | 'right';
  /** So far to the edge of what was looked at. */
  readonly reach_m: number;
  readonly stretches: readonly { readonly from_m: number; readonly to_m: number }[];
}

const REACH_m = 6;
const SPACING_m = 0.25;
/** A larger rectangle is looked at more coarsely. */
const MOST_POINTS = 16_384;
const LARGEST_m = 400;
const STOP_POINTS_A_SIDE = 10;
const CONTOUR_ERROR_stops = 0.05;
export const STOP_THRESHOLDS: readonly number[] = [-1, -0.5, 0, 0.5, 1];

/** Yields what share of the work is done. Throws SceneError for an unknown lamp, solid or mark, and for a lamp that is off. */
export function* searchClearRegion(
  scene: SeenScene,
  request: ClearRegionRequest,
): Generator<number, ClearRegion> {
  const { document, model, camera, clip_stops } = scene;
  const lamp = namedIn(document, 'lamps', request.lamp);
  const solids = request.solids?.map((id) => namedIn(document, 'solids', id).id);
  const wanted = request.mark === undefined ? undefined : namedIn(document, 'marks', request.mark);
  const index = model.lamps.findIndex((l) => l.id === lamp.id);
  if (!(model.lamps[index]!.gain > 0))
    throw new SceneError([
      problemAt(document, ['lamps', document.lamps!.indexOf(lamp)], {
        found: 'a lamp that is off',
        expected: 'one that is lit: a dark lamp is clear everywhere',
      }),
    ]);
  const [x, height_m, z] = lamp.position_m;
  const { low_m, high_m } = rectangleOf(request, x, z);
  const [width, depth] = [high_m[0] - low_m[0], high_m[1] - low_m[1]];
  const spacing_m = Math.max(request.spacing_m ?? SPACING_m, Math.sqrt((width * depth) / MOST_POINTS));

  const standing = lampStanding(document, model, lamp);
  const seen = seenParts(model, lensOf(camera));
  const counts = (part: number) => !solids || solids.includes(model.owners[model.parts[part]!.owner]!.id);
  const mirroring = mirroringOnly(model, (part) => seen.has(part) && counts(part));
  const burnsAt = (px: number, pz: number) => {
    const moved = lampMovedTo(mirroring, document, lamp.id, [px, height_m, pz]);
    return burningGlints(document, moved, camera, [index], clip_stops).length > 0;
  };
  const isClear = (px: number, pz: number) => fitsAt(standing, [px, height_m, pz]) && !burnsAt(px, pz);

  const traced = tracedRegion(latticeOver(low_m, high_m, spacing_m), isClear);
  const region = yield* scaled(traced, 0, 0.9);
  const foot_m = standing.stander.footRadius_m;
  const keptOut = keepOutsOf(document).map((area) => ({
    id: area.id,
    name: area.name,
    region: grownBy(area, foot_m),
  }));
  const clear = difference(region, ...keptOut.map((area) => area.region));

  const marks = litMarks(document, model, camera);
  const mark = wanted ? marks.find((m) => m.mark === wanted.id) : brightestOf(marks, index);
  const coarse = latticeOver(low_m, high_m, Math.max(width, depth) / STOP_POINTS_A_SIDE);
  const stopsAt = (px: number, pz: number) =>
    mark!.change_stops(lamp.id, [px, height_m, pz], CONTOUR_ERROR_stops);
  const contours = mark ? yield* scaled(stopContours(coarse, stopsAt, STOP_THRESHOLDS), 0.9, 1) : [];

  const edge = nearestOnEdge(clear, x, z);
  const clearHere = regionHolds(clear, x, z);
  return {
    lamp: lamp.id,
    camera: camera.id,
    solids: solids ?? null,
    height_m,
    low_m,
    high_m,
    spacing_m,
    clear,
    clear_m2: area_m2(clear),
    rectangle_m2: width * depth,
    clearHere,
    nearest: edge && !clearHere ? { at_m: edge, distance_m: Math.hypot(edge[0] - x, edge[1] - z) } : null,
    ways: waysFrom(clear, rectangle(low_m, high_m), [x, z], subtract(lamp.aim_m, lamp.position_m)),
    keptOut,
    stops: mark ? { mark: mark.mark, name: mark.name, contours } : null,
  };
}

/** All at once. */
export function clearRegionOf(scene: SeenScene, request: ClearRegionRequest): ClearRegion {
  const search = searchClearRegion(scene, request);
  for (;;) {
    const { done, value } = search.next();
    if (done) return value;
  }
}

function* scaled<T>(work: Generator<number, T>, from: number, to: number): Generator<number, T> {
  for (;;) {
    const step = work.next();
    if (step.done) return step.value;
    yield from + step.value * (to - from);
  }
}

function rectangleOf(request: ClearRegionRequest, x: number, z: number) {
  const low_m = request.low_m ?? ([x - REACH_m, z - REACH_m] as const);
  const high_m = request.high_m ?? ([x + REACH_m, z + REACH_m] as const);
  const sides = [high_m[0] - low_m[0], high_m[1] - low_m[1]];
  if (!sides.every((side) => side > 0 && side <= LARGEST_m))
    throw new RangeError(
      `the rectangle from ${low_m.join(', ')} to ${high_m.join(', ')} is ${sides.join(' × ')} m; ` +
        `give its low and its high corner, at most ${LARGEST_m} m apart each way`,
    );
  return { low_m, high_m };
}

function waysFrom(clear: PlanRegion, whole: PlanRegion, from: PlanPoint, toAim: Vec3): Way[] {
  const [ax, , az] = normalize([toAim[0], 0, toAim[2]]);
  if (ax === 0 && az === 0) return [];
  const ways = { back: [-ax, -az], forward: [ax, az], left: [az, -ax], right: [-az, ax] } as const;
  return (['back', 'forward', 'left', 'right'] as const).map((way) => ({
    way,
    reach_m: stretchesAlong(whole, from, ways[way]).at(-1)?.to_m ?? 0,
    stretches: stretchesAlong(clear, from, ways[way]),
  }));
}
