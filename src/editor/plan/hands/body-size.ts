import type { SceneDocument } from '../../../scene/schema/document.ts';
import { hazeBoxId } from '../arrange/plan-things.ts';
import { type Flat, flat, type Projection } from '../drawing/projection.ts';
import { boundsOf } from '../drawing/viewport.ts';
import { bodyOutline } from '../shapes/body-outline.ts';
import { hazeBoxRing } from '../shapes/haze-box.ts';
import { meshOutline } from '../shapes/mesh-outline.ts';

/** The corners of a thing that has an extent on the sheet; none of what is a sign about a point. */
export function cornersOf(document: SceneDocument, id: string, projection: Projection): readonly Flat[] {
  const solid = document.solids?.find((one) => one.id === id);
  if (solid?.shape === 'mesh') return meshOutline(solid, projection)?.points ?? [];
  const body = solid ?? document.figures?.find((one) => one.id === id);
  if (body) return bodyOutline(body, projection).points;
  const area = document.site?.keepOut?.find((one) => one.id === id);
  if (area) return area.outline_m.map(([x, z]) => flat([x, 0, z], projection));
  const region = document.haze?.regions?.find((_, i) => hazeBoxId(i) === id);
  if (region) return hazeBoxRing(region, projection);
  const path = document.paths?.find((one) => one.id === id);
  return path ? path.points.map(({ position_m }) => flat(position_m, projection)) : [];
}

/** Width and height of a thing on screen. */
export function bodySize_px(
  document: SceneDocument,
  id: string,
  projection: Projection,
  scale_px_m: number,
): Flat {
  const bounds = boundsOf(cornersOf(document, id, projection));
  if (!bounds) return [0, 0];
  const { low_m, high_m } = bounds;
  return [(high_m[0] - low_m[0]) * scale_px_m, (high_m[1] - low_m[1]) * scale_px_m];
}
