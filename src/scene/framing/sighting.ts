import { placeInFrame, type ThinLens } from '../../core/camera/thin-lens.ts';
import type { LightModel } from '../../core/light-model/light-model.ts';
import { dot, subtract, type Vec3 } from '../../core/math/vec3.ts';
import { hidingPart } from './sight-line.ts';

/** How a camera sees a thing that is given by points of it. */
export type Sighting =
  /** `at`: the middle of what is seen of it, 0..1 from the left and from the top; `share`: of its points. */
  | { readonly seen: 'in shot'; readonly at: FramePlace; readonly share: number }
  | { readonly seen: 'hidden'; readonly behind: string }
  /** `by_m`: how far the nearest point of it is beyond that edge of the frame, at its own distance. */
  | { readonly seen: 'out of frame'; readonly side: FrameSide; readonly by_m: number }
  | { readonly seen: 'behind the camera' };

export type FrameSide = 'left' | 'right' | 'top' | 'bottom';

export interface FramePlace {
  readonly u: number;
  readonly v: number;
}

export function inFrame(place: FramePlace | null): place is FramePlace {
  return place !== null && place.u >= 0 && place.u <= 1 && place.v >= 0 && place.v <= 1;
}

/** Distance along the camera's axis. */
export function depth_m(lens: ThinLens, point_m: Vec3): number {
  return dot(subtract(point_m, lens.position_m), lens.forward);
}

/** A pinhole at the lens: what is out of focus reaches a little farther. */
export function sighting(lens: ThinLens, model: LightModel, points_m: readonly Vec3[]): Sighting {
  const seen: FramePlace[] = [];
  const hiders: number[] = [];
  let beyond: { side: FrameSide; by_m: number } | null = null;
  for (const point of points_m) {
    const place = placeInFrame(lens, point);
    if (!place) continue;
    if (!inFrame(place)) {
      const edge = beyondEdge(lens, place, depth_m(lens, point));
      if (!beyond || edge.by_m < beyond.by_m) beyond = edge;
      continue;
    }
    const part = hidingPart(model, lens.position_m, point);
    if (part < 0) seen.push(place);
    else hiders.push(part);
  }
  if (seen.length > 0) {
    const mean = (pick: (place: FramePlace) => number) =>
      seen.reduce((sum, place) => sum + pick(place), 0) / seen.length;
    const at = { u: mean(({ u }) => u), v: mean(({ v }) => v) };
    return { seen: 'in shot', at, share: seen.length / points_m.length };
  }
  if (hiders.length > 0) return { seen: 'hidden', behind: mostFrequentOwner(model, hiders) };
  return beyond ? { seen: 'out of frame', ...beyond } : { seen: 'behind the camera' };
}

/** The edge that a place out of frame is farthest beyond, and how far in the plane at its depth. */
function beyondEdge(lens: ThinLens, { u, v }: FramePlace, depth: number): { side: FrameSide; by_m: number } {
  const width = 2 * lens.halfWidth * depth;
  const height = 2 * lens.halfHeight * depth;
  const edges = [
    { side: 'left', by_m: -u * width },
    { side: 'right', by_m: (u - 1) * width },
    { side: 'top', by_m: -v * height },
    { side: 'bottom', by_m: (v - 1) * height },
  ] as const;
  return edges.reduce((most, edge) => (edge.by_m > most.by_m ? edge : most));
}

function mostFrequentOwner(model: LightModel, parts: readonly number[]): string {
  const counts = new Map<string, number>();
  for (const part of parts) {
    const name = model.owners[model.parts[part]!.owner]!.name;
    counts.set(name, (counts.get(name) ?? 0) + 1);
  }
  return [...counts].reduce((most, entry) => (entry[1] > most[1] ? entry : most))[0];
}
