import { figureParts } from '../../../core/geometry/figure.ts';
import { placementFrom, worldDirection, worldPoint } from '../../../core/geometry/placement.ts';
import type { Rectangle } from '../../../core/geometry/shape.ts';
import { wallOpenings } from '../../../core/geometry/vehicle-openings.ts';
import { SIDES, wallFrame } from '../../../core/geometry/vehicle-spec.ts';
import { add, dot, scale, type Vec3 } from '../../../core/math/vec3.ts';
import { figureSpec } from '../../../scene/compile/figure-shapes.ts';
import { solidParts, vehicleSpec } from '../../../scene/compile/solid-shapes.ts';
import type { Figure } from '../../../scene/schema/figure.ts';
import type { Solid, VehicleSolid } from '../../../scene/schema/solid.ts';
import { type Flat, flat, type Projection, SHEETS } from '../drawing/projection.ts';
import { convexHull } from './convex-hull.ts';
import { ringPath } from './path-data.ts';
import { shapePoints } from './shape-points.ts';

/** A body as the sheet shows it: SVG paths in metres. */
export interface BodyOutline {
  readonly body: string;
  /** Open holes and open doors. */
  readonly openings: string;
  readonly panes: string;
  /** Corners of the body, to fit it and to see how large it is. */
  readonly points: readonly Flat[];
}

type Body = Solid | Figure;
const known = new WeakMap<Body, Partial<Record<Projection, BodyOutline>>>();

/** Of everything but a mesh, whose triangles stand in its file. Made once for every state of the body. */
export function bodyOutline(body: Body, projection: Projection): BodyOutline {
  const made = known.get(body) ?? {};
  const outline =
    made[projection] ?? ('shape' in body ? solidOutline(body, projection) : figureOutline(body, projection));
  known.set(body, { ...made, [projection]: outline });
  return outline;
}

/** What bodies are made of does not show in outline. */
const NO_PALETTE = { surfaces: [], spectra: [], panes: [], surface: () => 0, pane: () => 0 };
const NO_FILES = { photometry: new Map(), meshes: new Map() };

function solidOutline(solid: Solid, projection: Projection): BodyOutline {
  if (solid.shape === 'mesh') return outlineOf([flat(solid.position_m, projection)], [], []);
  const parts = solidParts(solid, 0, NO_PALETTE, NO_FILES);
  const points = parts.flatMap(({ shape }) => shapePoints(shape, projection));
  if (solid.shape === 'vehicle') {
    const { openings, panes } = vehicleHoles(solid, projection);
    return outlineOf(points, openings, panes);
  }
  const placement = placementFrom(solid.position_m, solid.rotation_deg);
  const holes = parts.flatMap(({ shape }) => (shape.kind === 'panel' ? shape.openings : []));
  const openings = holes.map((hole) => rectangle(hole, (along, up) => worldPoint(placement, [along, up, 0])));
  const rings = openings.map((corners) => corners.map((corner) => flat(corner, projection)));
  return solid.shape === 'pane' ? outlineOf(points, [], [points]) : outlineOf(points, rings, []);
}

function outlineOf(
  points: readonly Flat[],
  openings: readonly (readonly Flat[])[],
  panes: readonly (readonly Flat[])[],
): BodyOutline {
  const hull = convexHull(points);
  const rings = (list: readonly (readonly Flat[])[]) =>
    list.map((ring) => ringPath(convexHull(ring))).join('');
  return { body: ringPath(hull), openings: rings(openings), panes: rings(panes), points: hull };
}

/** Walls turned further from the viewer than this show no holes in an elevation. */
const LEAST_FACING = 0.1;

/** The holes in the walls that can be seen: in an elevation those of the near side, from above those of all four. */
function vehicleHoles(solid: VehicleSolid, projection: Projection) {
  const spec = vehicleSpec(solid);
  const placement = placementFrom(solid.position_m, solid.rotation_deg);
  const openings: Flat[][] = [];
  const panes: Flat[][] = [];
  for (const side of SIDES) {
    const frame = wallFrame(spec, side);
    const facing = dot(worldDirection(placement, frame.outward), SHEETS[projection].toViewer);
    if (projection !== 'plan' && facing < LEAST_FACING) continue;
    const onWall = (along_m: number, up_m: number) =>
      worldPoint(
        placement,
        add(add(scale(frame.along, along_m), scale(frame.outward, frame.distance_m)), [0, up_m, 0]),
      );
    for (const hole of wallOpenings(spec, side)) {
      const ring = rectangle(hole, onWall).map((corner) => flat(corner, projection));
      (hole.windowRun === null ? openings : panes).push(ring);
    }
  }
  return { openings, panes };
}

function rectangle(
  { left_m, right_m, bottom_m, top_m }: Rectangle,
  place: (along_m: number, up_m: number) => Vec3,
): Vec3[] {
  return [place(left_m, bottom_m), place(right_m, bottom_m), place(right_m, top_m), place(left_m, top_m)];
}

/** A figure's parts one over the other: filled together they are its outline. */
function figureOutline(figure: Figure, projection: Projection): BodyOutline {
  const hulls = figureParts(figureSpec(figure)).map(({ shape }) =>
    convexHull(shapePoints(shape, projection)),
  );
  return { body: hulls.map(ringPath).join(''), openings: '', panes: '', points: convexHull(hulls.flat()) };
}
