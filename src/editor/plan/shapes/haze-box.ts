import { placementFrom } from '../../../core/geometry/placement.ts';
import type { HazeRegionSettings } from '../../../scene/schema/document.ts';
import type { Flat, Projection } from '../drawing/projection.ts';
import { convexHull } from './convex-hull.ts';
import { shapePoints } from './shape-points.ts';

/** A box that haze fills, as the sheet shows it. */
export function hazeBoxRing(region: HazeRegionSettings, projection: Projection): readonly Flat[] {
  const [x, y, z] = region.size_m;
  const placement = placementFrom(region.position_m, region.rotation_deg);
  return convexHull(shapePoints({ kind: 'box', placement, halfSize_m: [x / 2, y / 2, z / 2] }, projection));
}
