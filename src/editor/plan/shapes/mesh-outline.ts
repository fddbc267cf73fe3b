import type { Part } from '../../../core/geometry/shape.ts';
import type { Solid } from '../../../scene/schema/solid.ts';
import type { StageParts } from '../../worker/reading-desk.ts';
import { type Flat, flat, type Projection } from '../drawing/projection.ts';
import type { BodyOutline } from './body-outline.ts';
import { convexHull } from './convex-hull.ts';
import { ringPath } from './path-data.ts';

type MeshSolid = Extract<Solid, { shape: 'mesh' }>;

/** Hulls about the origin of each mesh as it is turned and scaled: wherever it is dragged, they go along. */
const hulls = new Map<string, readonly Flat[]>();
const MOST_HULLS = 500;

function keyOf({ file, rotation_deg, scale }: MeshSolid, projection: Projection): string {
  return JSON.stringify([projection, file, rotation_deg ?? null, scale ?? 1]);
}

/** The hull of a mesh; null while the triangles have not been drawn yet. */
export function meshOutline(solid: MeshSolid, projection: Projection): BodyOutline | null {
  const hull = hulls.get(keyOf(solid, projection));
  if (!hull) return null;
  const [u, v] = flat(solid.position_m, projection);
  const points = hull.map(([du, dv]): Flat => [u + du, v + dv]);
  return { body: ringPath(points), openings: '', panes: '', points };
}

/** Takes from the bodies that the worker sent the hulls that are not known yet. They are in the order of the solids. */
export function learnMeshes(solids: readonly Solid[], { parts }: StageParts, projection: Projection): void {
  for (const [owner, solid] of solids.entries()) {
    if (solid.shape !== 'mesh' || hulls.has(keyOf(solid, projection))) continue;
    const own = parts.filter((part) => part.owner === owner);
    if (own.length === 0) continue;
    if (hulls.size > MOST_HULLS) hulls.clear();
    const [u, v] = flat(solid.position_m, projection);
    const hull = convexHull(farthest(own, projection));
    hulls.set(
      keyOf(solid, projection),
      hull.map(([a, b]): Flat => [a - u, b - v]),
    );
  }
}

/** Meshes of a hundred thousand triangles are looked at in so many directions; their hull is flat in between. */
const DIRECTIONS = 64;

function farthest(parts: readonly Part[], projection: Projection): Flat[] {
  const directions = Array.from({ length: DIRECTIONS }, (_, i): Flat => {
    const angle = (2 * Math.PI * i) / DIRECTIONS;
    return [Math.cos(angle), Math.sin(angle)];
  });
  const best = directions.map((): Flat => [0, 0]);
  const reach = new Float64Array(DIRECTIONS).fill(Number.NEGATIVE_INFINITY);
  for (const { shape } of parts) {
    if (shape.kind !== 'triangle') continue;
    for (const corner of [shape.a_m, shape.b_m, shape.c_m]) {
      const point = flat(corner, projection);
      for (let i = 0; i < DIRECTIONS; i++) {
        const along = directions[i]![0] * point[0] + directions[i]![1] * point[1];
        if (along <= reach[i]!) continue;
        reach[i] = along;
        best[i] = point;
      }
    }
  }
  return best;
}
