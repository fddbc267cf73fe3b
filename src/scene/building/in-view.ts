import { placementFrom } from '../../core/geometry/placement.ts';
import { dot, type Vec3 } from '../../core/math/vec3.ts';
import type { Camera } from '../schema/camera.ts';
import type { SceneDocument } from '../schema/document.ts';
import type { Solid } from '../schema/solid.ts';
import { levelDistance_m, levelToward, rightOf } from './directions.ts';
import type { Surroundings } from './recipe.ts';
import { pointToCentimetre } from './rounded.ts';
import { bodiesOf, standingLevel_m } from './standing-room.ts';

const NEAREST_m = 2;
const FARTHEST_m = 12;
const ELSE_m = 6;
const LENS_HEIGHT_m = 1.5;

/** The place on the ground that the camera looks at, or a few metres ahead of it; the datum without a camera. */
export function spotInView({ document, camera }: Surroundings): Vec3 {
  const bodies = bodiesOf(document);
  if (!camera) return [0, standingLevel_m(bodies, 0, 0, 0), 0];
  const { position_m, look_m } = camera;
  const looks_m = levelDistance_m(position_m, look_m);
  const ahead_m = looks_m >= NEAREST_m && looks_m <= FARTHEST_m ? looks_m : ELSE_m;
  const forward = levelToward(position_m, look_m);
  const x = position_m[0] + ahead_m * forward[0];
  const z = position_m[2] + ahead_m * forward[2];
  return pointToCentimetre([x, standingLevel_m(bodies, x, z, groundOfCamera(document, camera)), z]);
}

/** The level on which the camera stands. */
export function groundOfCamera(document: SceneDocument, { position_m: [x, y, z] }: Camera): number {
  return standingLevel_m(bodiesOf(document), x, z, y - LENS_HEIGHT_m);
}

/** Sideways as the camera sees it, its right; +x without a camera. */
export function acrossView({ camera }: Surroundings): Vec3 {
  return camera ? rightOf(levelToward(camera.position_m, camera.look_m)) : [1, 0, 0];
}

/** Level, away from the camera; −z without one. */
export function intoView({ camera }: Surroundings): Vec3 {
  return camera ? levelToward(camera.position_m, camera.look_m) : [0, 0, -1];
}

const MOST_STEPS = 24;

/**
 * A free place on the ground for something of a radius: beside what is chosen, where that is of a size to stand beside, else
 * in view; stepping sideways, right and left in turn, past what stands there already.
 */
export function freeSpot(surroundings: Surroundings, radius_m: number): Vec3 {
  const { document } = surroundings;
  const across = acrossView(surroundings);
  const taken = placesTaken(document);
  const beside = besideChosen(surroundings);
  const start = beside?.position_m ?? spotInView(surroundings);
  const bodies = bodiesOf(document);
  const near_m = start[1];
  for (let i = 0; i < MOST_STEPS; i++) {
    const steps = beside ? i + 1 : Math.ceil(i / 2) * (i % 2 === 1 ? 1 : -1);
    const by_m = steps * (radius_m + GAP_m + (beside?.radius_m ?? radius_m));
    const x = start[0] + by_m * across[0];
    const z = start[2] + by_m * across[2];
    const free = taken.every(
      (other) => Math.hypot(other.position_m[0] - x, other.position_m[2] - z) > radius_m + other.radius_m,
    );
    if (free) return pointToCentimetre([x, standingLevel_m(bodies, x, z, near_m), z]);
  }
  return pointToCentimetre(start);
}

const GAP_m = 0.3;
/** What is larger is a place to stand on or before, nothing to stand beside. */
const LARGEST_COMPANION_m = 2.5;

interface Occupied {
  readonly position_m: Vec3;
  readonly radius_m: number;
}

const FIGURE_RADIUS_m = 0.35;
const STAND_RADIUS_m = 0.5;
const TRIPOD_RADIUS_m = 0.5;

function placesTaken({ figures, lamps, cameras, solids }: SceneDocument): Occupied[] {
  const all = (things: readonly { position_m: Vec3 }[] | undefined, radius_m: number) =>
    (things ?? []).map(({ position_m }) => ({ position_m, radius_m }));
  return [
    ...all(figures, FIGURE_RADIUS_m),
    ...all(lamps, STAND_RADIUS_m),
    ...all(cameras, TRIPOD_RADIUS_m),
    ...(solids ?? [])
      .map((solid) => ({ position_m: solid.position_m, radius_m: radiusOf_m(solid) }))
      .filter(({ radius_m }) => radius_m <= LARGEST_COMPANION_m),
  ];
}

function besideChosen({ document, chosen }: Surroundings): Occupied | undefined {
  const last = chosen.at(-1);
  const figure = document.figures?.find(({ id }) => id === last);
  if (figure) return { position_m: figure.position_m, radius_m: FIGURE_RADIUS_m };
  const solid = document.solids?.find(({ id }) => id === last);
  if (!solid || radiusOf_m(solid) > LARGEST_COMPANION_m) return undefined;
  return { position_m: solid.position_m, radius_m: radiusOf_m(solid) };
}

/** How far a solid reaches from its middle on plan, at most. */
export function radiusOf_m(solid: Solid): number {
  switch (solid.shape) {
    case 'box':
    case 'vehicle':
      return Math.hypot(solid.size_m[0], solid.size_m[2]) / 2;
    case 'cylinder':
      return solid.radius_m;
    case 'sphere':
      return solid.radius_m;
    case 'capsule':
      return solid.length_m / 2;
    case 'panel':
    case 'pane':
      return solid.size_m[0] / 2;
    case 'mesh':
      return 1;
  }
}

/** How far a solid reaches from its middle in a level direction. */
export function reachToward_m(solid: Solid, direction: Vec3): number {
  if (solid.shape !== 'box' && solid.shape !== 'vehicle') return radiusOf_m(solid);
  const { x, z } = placementFrom([0, 0, 0], solid.rotation_deg);
  const [length, , width] = solid.size_m;
  return (length * Math.abs(dot(direction, x)) + width * Math.abs(dot(direction, z))) / 2;
}

/** Where "in a sensible place" is, in words: "beside Ada", "in front of camera A", "at the datum". */
export function placeWords({ document, chosen, camera }: Surroundings): {
  readonly before: string;
  readonly name: string;
} {
  if (besideChosen({ document, chosen, camera })) {
    const id = chosen.at(-1)!;
    const thing =
      document.figures?.find((one) => one.id === id) ?? document.solids?.find((one) => one.id === id);
    return { before: 'beside', name: thing?.name ?? id };
  }
  if (camera) return { before: 'in front of camera', name: camera.name ?? camera.id };
  return { before: 'at the datum, as there is no', name: 'camera' };
}
