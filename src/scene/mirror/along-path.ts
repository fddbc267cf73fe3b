import { add, angleBetween, normalize, subtract, type Vec3 } from '../../core/math/vec3.ts';
import type { Glint } from '../../core/mirror/glint.ts';
import { chosenCamera } from '../camera/scene-camera.ts';
import { gone_m, positionAt_m, timesOf } from '../moves/position-at.ts';
import { problemAt, SceneError, shown } from '../problems/problem.ts';
import type { Camera } from '../schema/camera.ts';
import type { Path } from '../schema/path.ts';
import { burningGlints } from './burning.ts';
import type { SeenScene } from './cures/cures.ts';
import { cameraAt, lampMovedTo } from './moved.ts';
import { namedIn } from './named-in.ts';

/** From when to when, to 0.02 s, and how far the mover has gone by then, along the move. */
export interface Stretch {
  readonly from_s: number;
  readonly to_s: number;
  readonly from_m: number;
  readonly to_m: number;
}

/** A stretch of a move during which a lamp burns in a solid, in frame: its image, or the fringe that the finish gives it. */
export interface GlintRun extends Stretch {
  readonly lamp: string;
  readonly solid: string;
  readonly fromPosition_m: Vec3;
  readonly toPosition_m: Vec3;
  /** From the first to the last that the middle of the lamp's face is mirrored; null where it never is. */
  readonly image: Stretch | null;
  /** The most that was met with, over middle grey. */
  readonly peak_stops: number;
}

export interface GlintsAlongPath {
  readonly path: string;
  readonly name: string;
  readonly moves: { readonly kind: 'camera' | 'lamp'; readonly id: string };
  readonly camera: string;
  readonly from_s: number;
  readonly to_s: number;
  readonly length_m: number;
  /** By time, then by lamp and solid. */
  readonly runs: readonly GlintRun[];
}

/** The move is looked at every so far; what burns for less may be missed. A long move more coarsely. */
const STEP_m = 0.05;
const MOST_STEPS = 1000;
const EXACT_s = 0.02;

/**
 * Walks a camera or a lamp along its path, everything else as it is; the camera keeps looking at its look point, the lamp
 * at its aim. Yields what share is done. Throws SceneError where the path is unknown or moves something else.
 */
export function* searchAlongPath(scene: SeenScene, pathId: string): Generator<number, GlintsAlongPath> {
  const { document, model, clip_stops } = scene;
  const path = namedIn(document, 'paths', pathId);
  const isCamera = (document.cameras ?? []).some(({ id }) => id === path.of);
  const lamp = model.lamps.findIndex(({ id }) => id === path.of);
  if (!isCamera && lamp < 0)
    throw new SceneError([
      problemAt(document, ['paths', document.paths!.indexOf(path), 'of'], {
        found: shown(path.of),
        expected: 'a camera or a lamp: only what sees or shines moves a glint of its own accord',
      }),
    ]);
  if (!model.lamps.some(({ gain }) => gain > 0))
    throw new SceneError([
      problemAt(document, ['lamps'], { found: 'no lamp that is lit', expected: 'some light to be mirrored' }),
    ]);
  const camera: Camera = isCamera ? chosenCamera(document, path.of) : scene.camera;
  const at = (t_s: number, lamps?: readonly number[]): readonly Glint[] => {
    const to = positionAt_m(path, t_s);
    return isCamera
      ? burningGlints(document, model, cameraAt(camera, to), lamps, clip_stops)
      : burningGlints(document, lampMovedTo(model, document, path.of, to), camera, lamps, clip_stops);
  };
  const ofPair = (pair: Glint, t_s: number) =>
    at(t_s, [pair.lamp]).filter(({ lamp, owner }) => lamp === pair.lamp && owner === pair.owner);
  /** Whether the point is where the middle of the lamp's face is mirrored: the normal halves the angle between the legs. */
  const isMiddle = ({ lamp: index, point_m, normal }: Glint, t_s: number) => {
    const eye = isCamera ? positionAt_m(path, t_s) : camera.position_m;
    const lampAt = index === lamp ? positionAt_m(path, t_s) : model.lamps[index]!.frame.origin_m;
    const halfway = add(normalize(subtract(eye, point_m)), normalize(subtract(lampAt, point_m)));
    return angleBetween(halfway, normal) < SAME_DIRECTION;
  };
  const stretch = (from_s: number, to_s: number): Stretch => ({
    from_s,
    to_s,
    from_m: gone_m(path, from_s),
    to_m: gone_m(path, to_s),
  });

  const { from_s, to_s } = timesOf(path);
  const times = timesAlong(path);
  const open = new Map<string, OpenRun>();
  const runs: GlintRun[] = [];
  const close = ({ glint, from_s, peak_stops, middles_s }: OpenRun, until_s: number) => {
    const inMiddle = (t_s: number) => ofPair(glint, t_s).some((g) => isMiddle(g, t_s));
    const [first_s, last_s] = [middles_s[0], middles_s.at(-1)];
    const image =
      first_s === undefined || last_s === undefined
        ? null
        : stretch(
            edge_s(inMiddle, first_s, times.findLast((t) => t < first_s) ?? first_s),
            edge_s(inMiddle, last_s, times.find((t) => t > last_s) ?? last_s),
          );
    runs.push({
      lamp: model.lamps[glint.lamp]!.id,
      solid: model.owners[glint.owner]!.id,
      ...stretch(from_s, until_s),
      fromPosition_m: positionAt_m(path, from_s),
      toPosition_m: positionAt_m(path, until_s),
      image,
      peak_stops,
    });
  };
  for (const [i, t_s] of times.entries()) {
    const found = at(t_s);
    const before_s = times[i - 1] ?? t_s;
    const keys = new Set(found.map(keyOf));
    for (const [key, run] of [...open]) {
      if (keys.has(key)) continue;
      open.delete(key);
      close(
        run,
        edge_s((t) => ofPair(run.glint, t).length > 0, before_s, t_s),
      );
    }
    for (const glint of found) {
      const key = keyOf(glint);
      if (!open.has(key)) {
        const start_s = edge_s((t) => ofPair(glint, t).length > 0, t_s, before_s);
        open.set(key, { glint, from_s: start_s, peak_stops: glint.stops, middles_s: [] });
      }
      const run = open.get(key)!;
      run.peak_stops = Math.max(run.peak_stops, glint.stops);
      if (isMiddle(glint, t_s)) run.middles_s.push(t_s);
    }
    yield (i + 1) / times.length;
  }
  for (const run of open.values()) close(run, to_s);
  runs.sort((a, b) => a.from_s - b.from_s || compare(a.lamp, b.lamp) || compare(a.solid, b.solid));
  return {
    path: path.id,
    name: path.name ?? path.id,
    moves: { kind: isCamera ? 'camera' : 'lamp', id: path.of },
    camera: camera.id,
    from_s,
    to_s,
    length_m: gone_m(path, to_s),
    runs,
  };
}

/** All at once. */
export function glintsAlongPath(scene: SeenScene, pathId: string): GlintsAlongPath {
  const search = searchAlongPath(scene, pathId);
  for (;;) {
    const { done, value } = search.next();
    if (done) return value;
  }
}

interface OpenRun {
  readonly glint: Glint;
  readonly from_s: number;
  peak_stops: number;
  /** Times looked at when the middle of the lamp's face was mirrored. */
  readonly middles_s: number[];
}

/** Radians. */
const SAME_DIRECTION = 1e-5;

function keyOf({ lamp, owner }: Glint): string {
  return `${lamp} ${owner}`;
}

function compare(a: string, b: string): number {
  return a < b ? -1 : a > b ? 1 : 0;
}

/** Between a time when it burns and one when it does not, the last that was found to burn. */
function edge_s(burns: (t_s: number) => boolean, burning_s: number, not_s: number): number {
  let [from, to] = [burning_s, not_s];
  while (Math.abs(to - from) > EXACT_s) {
    const middle = (from + to) / 2;
    if (burns(middle)) from = middle;
    else to = middle;
  }
  return from;
}

function timesAlong(path: Path): number[] {
  const { from_s, to_s } = timesOf(path);
  const step_m = Math.max(STEP_m, gone_m(path, to_s) / MOST_STEPS);
  const times = [from_s];
  for (let i = 1; i < path.points.length; i++) {
    const [start_s, end_s] = [path.points[i - 1]!.t_s, path.points[i]!.t_s];
    const steps = Math.max(1, Math.ceil((gone_m(path, end_s) - gone_m(path, start_s)) / step_m));
    for (let k = 1; k <= steps; k++) times.push(start_s + ((end_s - start_s) * k) / steps);
  }
  return times;
}
