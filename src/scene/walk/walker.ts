import type { FigureSpec } from '../../core/geometry/figure.ts';
import { degreesFromRadians } from '../../core/math/angle.ts';
import { add, type Vec3 } from '../../core/math/vec3.ts';
import { figureSpec } from '../compile/figure-shapes.ts';
import { velocityAt_m_per_s } from '../framing/velocity-at.ts';
import { positionAt_m } from '../moves/position-at.ts';
import { nearestName } from '../problems/nearest-name.ts';
import { problemAt, SceneError, shown } from '../problems/problem.ts';
import type { SceneDocument } from '../schema/document.ts';
import { type Path, WALKER } from '../schema/path.ts';

/** Someone who walks along a path: a passer-by, or a figure of the scene. */
export interface Walker {
  readonly path: Path;
  /** Null for a passer-by. */
  readonly figureId: string | null;
  readonly name: string;
  readonly height_m: number;
}

/** Where a walker is metered and looked at: the face of someone of middling height. */
export const METER_HEIGHT_m = 1.5;
const PASSER_BY_HEIGHT_m = 1.7;

/** The walker of the path that was asked for, else of the first path that someone walks. Throws SceneError if there is none. */
export function chosenWalker(document: SceneDocument, id?: string): Walker {
  const paths = document.paths ?? [];
  const walked = paths.filter((path) => isWalked(document, path));
  const path = id === undefined ? walked[0] : paths.find((p) => p.id === id);
  if (path && isWalked(document, path)) return walkerOf(document, path);
  const ids = walked.map((p) => p.id);
  const expected =
    ids.length > 0
      ? `one of ${ids.join(', ')}`
      : `a path of "${WALKER}" or of a figure, with points in time and place`;
  const found = path
    ? `${shown(path.id)}, the path of ${shown(path.of)}, which does not walk`
    : id === undefined
      ? 'no path that someone walks'
      : `no path ${shown(id)}`;
  const nearest = id === undefined || path ? undefined : nearestName(id, ids);
  throw new SceneError([problemAt(document, ['paths'], { found, expected, nearest })]);
}

function isWalked(document: SceneDocument, path: Path): boolean {
  return path.of === WALKER || (document.figures ?? []).some(({ id }) => id === path.of);
}

function walkerOf(document: SceneDocument, path: Path): Walker {
  const figure = (document.figures ?? []).find(({ id }) => id === path.of);
  return {
    path,
    figureId: figure?.id ?? null,
    name: figure ? (figure.name ?? figure.id) : 'Walker',
    height_m: figure ? figureSpec(figure).height_m : PASSER_BY_HEIGHT_m,
  };
}

/** The scene while the walker is elsewhere: a figure that walks does not also stand where it was drawn. */
export function withoutWalker(document: SceneDocument, { figureId }: Walker): SceneDocument {
  if (figureId === null) return document;
  return { ...document, figures: (document.figures ?? []).filter(({ id }) => id !== figureId) };
}

/** The walker's body in mid-step, looking where it goes; standing still, where it went last or will go first. */
export function bodyAt({ path, height_m }: Walker, t_s: number): FigureSpec {
  return {
    position_m: positionAt_m(path, t_s),
    heading_deg: heading_deg(path, t_s),
    pose: 'walking',
    height_m,
  };
}

function heading_deg(path: Path, t_s: number): number {
  const legs = path.points.slice(1).map(({ t_s: end_s }, i) => {
    const middle_s = (path.points[i]!.t_s + end_s) / 2;
    return { begins_s: path.points[i]!.t_s, velocity: velocityAt_m_per_s(path, middle_s) };
  });
  const moving = legs.filter(({ velocity }) => Math.hypot(velocity[0], velocity[2]) > 1e-6);
  const leg = moving.findLast(({ begins_s }) => begins_s <= t_s) ?? moving[0];
  return leg ? degreesFromRadians(Math.atan2(leg.velocity[0], leg.velocity[2])) : 0;
}

export function meteredAt_m(path: Path, t_s: number): Vec3 {
  return add(positionAt_m(path, t_s), [0, METER_HEIGHT_m, 0]);
}
