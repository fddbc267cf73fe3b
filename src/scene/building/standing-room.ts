import { buildGeometry, type Geometry } from '../../core/geometry/geometry.ts';
import { nearestHit } from '../../core/geometry/ray-query.ts';
import { newHit } from '../../core/geometry/ray-shape.ts';
import { solidAround } from '../../core/geometry/solid-around.ts';
import { subtract, type Vec3 } from '../../core/math/vec3.ts';
import type { Palette } from '../compile/palette.ts';
import { solidParts } from '../compile/solid-shapes.ts';
import type { SceneDocument } from '../schema/document.ts';
import type { Solid } from '../schema/solid.ts';

/** A person's height and a little. */
const HEADROOM_m = 1.9;
const ABOVE_ALL_m = 1000;
const OFF_m = 1e-4;
/** Floors over each other at one place. */
const MOST_FLOORS = 64;

/** The solids as bodies, whatever they are made of. Meshes are left out: their files are not at hand here. */
export interface Bodies {
  readonly geometry: Geometry;
  /** By shape of the geometry. */
  readonly solids: readonly Solid[];
}

const UNPAINTED: Palette = { surfaces: [], spectra: [], panes: [], surface: () => 0, pane: () => 0 };
const NO_FILES = { meshes: new Map(), photometry: new Map() };
const known = new WeakMap<readonly Solid[], Bodies>();
const NOTHING: readonly Solid[] = [];

export function bodiesOf(document: SceneDocument): Bodies {
  const solids = document.solids ?? NOTHING;
  const before = known.get(solids);
  if (before) return before;
  const parts = solids.flatMap((solid, index) =>
    solid.shape === 'mesh' ? [] : solidParts(solid, index, UNPAINTED, NO_FILES),
  );
  const bodies = { geometry: buildGeometry(parts), solids: parts.map(({ owner }) => solids[owner]!) };
  known.set(solids, bodies);
  return bodies;
}

const hit = newHit();

/**
 * The level that something stands on at a place of the plan: of all floors with headroom over them, the one nearest to
 * `near_m`, so that things keep to the quay and neither fall into the water nor climb the roof. `near_m` where there is none.
 */
export function standingLevel_m(bodies: Bodies, x: number, z: number, near_m: number): number {
  const floors = floorsAt(bodies, x, z);
  return (
    floors.reduce<number | null>(
      (best, level) => (best === null || Math.abs(level - near_m) < Math.abs(best - near_m) ? level : best),
      null,
    ) ?? near_m
  );
}

/** Whether anything is modelled to stand on there. */
export function hasFloor(bodies: Bodies, x: number, z: number): boolean {
  return floorsAt(bodies, x, z).length > 0;
}

/** From the highest down. */
function floorsAt({ geometry }: Bodies, x: number, z: number): number[] {
  const floors: number[] = [];
  let from = ABOVE_ALL_m;
  let above = Infinity;
  for (let i = 0; i < MOST_FLOORS; i++) {
    if (!nearestHit(geometry, x, from, z, 0, -1, 0, 0, from + ABOVE_ALL_m, hit)) break;
    const level = from - hit.t;
    const flat = Math.abs(hit.ny) > 0.9;
    const open = solidAround(geometry, [x, level + 10 * OFF_m, z]) < 0;
    if (flat && open && above - level >= HEADROOM_m) floors.push(Number(level.toFixed(4)));
    above = level;
    from = level - OFF_m;
  }
  return floors;
}

/** Whether a point is inside a solid. */
export function isInside({ geometry }: Bodies, point_m: Vec3): boolean {
  return solidAround(geometry, point_m) >= 0;
}

/** Whether nothing solid is between two points; panes count as solid, since they dim and scatter. */
export function seesFreely({ geometry }: Bodies, from_m: Vec3, to_m: Vec3): boolean {
  return !nearestHit(geometry, ...from_m, ...subtract(to_m, from_m), 1e-6, 1 - 1e-3, hit);
}

/** The first surface from a point in a direction: where, which way it faces the point, whose it is; null into the open. */
export function surfaceAlong(
  { geometry, solids }: Bodies,
  from_m: Vec3,
  toward: Vec3,
): { readonly point_m: Vec3; readonly normal: Vec3; readonly solid: Solid } | null {
  if (!nearestHit(geometry, ...from_m, ...toward, OFF_m, ABOVE_ALL_m, hit)) return null;
  const { t, nx, ny, nz, shape } = hit;
  const side = nx * toward[0] + ny * toward[1] + nz * toward[2] < 0 ? 1 : -1;
  return {
    point_m: [from_m[0] + t * toward[0], from_m[1] + t * toward[1], from_m[2] + t * toward[2]],
    normal: [side * nx, side * ny, side * nz],
    solid: solids[shape]!,
  };
}
