import type { Lamp, LightModel } from '../light-model/light-model.ts';
import { add, scale, subtract, type Vec3 } from '../math/vec3.ts';
import { lobeReach, tangents } from './glint-patch.ts';
import { COARSE, type GlintSearch } from './glint-search.ts';
import { isThere, legIsFree } from './image-seen.ts';
import { inFrame } from './in-frame.ts';
import { lobeLuminance_cd_m2 } from './lobe-luminance.ts';
import type { MirrorPoint, Reflector } from './reflector.ts';

/** Directions and shares of the lobe's reach in which its brightest seen place is looked for. */
const TURNS = 8;
const REACHES = [0.15, 0.4, 0.7, 1];
/** Bisections of that reach. */
const ROUGHLY = 3;
/** Where nothing so near is seen, the surface is taken for hidden. */
const NEAR_m = [0.03, 0.3];

/** Places round one, on the surface and seen by the camera, at which the lobe may shine above what is looked for. */
export function lobePlaces(
  search: GlintSearch,
  lamp: Lamp,
  reflector: Reflector,
  from: MirrorPoint,
): MirrorPoint[] {
  const { model, view, least_cd_m2 } = search;
  const eye = view.camera.position_m;
  const { along, across } = tangents(from.normal, subtract(eye, from.point_m));
  const directions = Array.from({ length: TURNS }, (_, i): Vec3 => {
    const angle = (2 * Math.PI * i) / TURNS;
    return add(scale(along, Math.cos(angle)), scale(across, Math.sin(angle)));
  });
  const isSeen = (q: MirrorPoint) => q.within && isThere(model, reflector, q) && legIsFree(model, q, eye);
  const near = directions.flatMap((d) => NEAR_m.map((x) => reflector.walk(from, d, x)));
  if (!isSeen(from) && !near.some(isSeen)) return [];
  const places = directions.flatMap((d) => {
    const { distance_m } = lobeReach(lamp, reflector, eye, from, d, least_cd_m2, ROUGHLY, COARSE);
    return REACHES.map((share) => reflector.walk(from, d, share * distance_m));
  });
  return [from, ...places].filter(isSeen);
}

/** Of those in frame that are bright enough, else of all, the one with the most light; null where none has enough. */
export function brightest(
  { model, view, least_cd_m2 }: GlintSearch,
  lamp: Lamp,
  { optics }: Reflector,
  places: readonly MirrorPoint[],
): MirrorPoint | null {
  const eye = view.camera.position_m;
  const luminance = ({ point_m, normal }: MirrorPoint, seen: LightModel | null) =>
    lobeLuminance_cd_m2(lamp, optics, point_m, normal, eye, COARSE, seen);
  const brightestOf = (some: readonly MirrorPoint[]): MirrorPoint | null => {
    const open = some.map((q) => ({ q, most: luminance(q, null) })).sort((a, b) => b.most - a.most);
    let best: MirrorPoint | null = null;
    let L = least_cd_m2;
    for (const { q, most } of open) {
      // What stands in the way takes light; it adds none.
      if (most < L) break;
      const here = luminance(q, model);
      if (here < L) continue;
      best = q;
      L = here;
    }
    return best;
  };
  return brightestOf(places.filter((q) => inFrame(view.camera, q.point_m))) ?? brightestOf(places);
}
