import type { SceneDocument } from '../schema/document.ts';
import { grown, type PlanPoint, type PlanRegion, regionHolds, toEdge_m } from './plan.ts';

/** Areas where nothing may stand. A stand keeps out with all of its foot. */
export interface KeepOut {
  readonly id: string;
  readonly name: string;
  readonly outline_m: PlanRegion;
}

export function keepOutsOf(document: SceneDocument): readonly KeepOut[] {
  return (document.site?.keepOut ?? []).map(({ id, name, outline_m }) => ({
    id,
    name: name ?? id,
    outline_m: [[outline_m]],
  }));
}

/** The first area that a foot of this radius at (x, z) would stand in. */
export function keepOutAt(
  areas: readonly KeepOut[],
  x: number,
  z: number,
  foot_m: number,
): KeepOut | undefined {
  return areas.find(({ outline_m }) => regionHolds(outline_m, x, z) || toEdge_m(outline_m, x, z) < foot_m);
}

/** Where the middle of a foot of this radius may not be. */
export function grownBy(area: KeepOut, foot_m: number): PlanRegion {
  return grown(area.outline_m[0]![0] as readonly PlanPoint[], foot_m);
}
