import type { LightModel } from '../light-model/light-model.ts';
import { distance } from '../math/vec3.ts';
import { describedGlint } from './described-glint.ts';
import { type FacePoints, facePoints } from './face-points.ts';
import { CLIP_stops, type Glint, type GlintOptions, type GlintView, LEAST_stops } from './glint.ts';
import { COARSE, type GlintSearch } from './glint-search.ts';
import { imageSeen } from './image-seen.ts';
import { inFrame, mayBeInFrame } from './in-frame.ts';
import { lobeLuminance_cd_m2 } from './lobe-luminance.ts';
import { brightest, lobePlaces } from './lobe-places.ts';
import type { MirrorPoint, Reflector } from './reflector.ts';
import { reflectorsOf } from './reflectors-of.ts';

/**
 * Every place where a lit lamp shows in a glossy surface, for one camera: out of frame too unless told otherwise. Pure and
 * deterministic; brightest first.
 */
export function findGlints(model: LightModel, view: GlintView, options: GlintOptions = {}): readonly Glint[] {
  const all = reflectorsOf(model);
  const reflectors = options.inFrameOnly ? all.filter((r) => mayBeInFrame(view.camera, r.box_m)) : all;
  const search: GlintSearch = {
    model,
    view,
    clip_stops: options.clip_stops ?? CLIP_stops,
    least_cd_m2: view.zero_cd_m2 * 2 ** (options.least_stops ?? LEAST_stops),
    inFrameOnly: options.inFrameOnly ?? false,
    withPatch: !options.withoutPatch,
  };
  const glints: Glint[] = [];
  for (const index of options.lamps ?? model.lamps.keys()) {
    const lamp = model.lamps[index]!;
    if (lamp.gain <= 0) continue;
    const points = facePoints(lamp.face);
    for (const reflector of reflectors) {
      for (const centre of reflector.mirrored(view.camera.position_m, lamp.frame.origin_m)) {
        glints.push(...glintsAt(search, index, points, reflector, centre));
      }
    }
  }
  glints.sort((a, b) => b.luminance_cd_m2 - a.luminance_cd_m2);
  return glints.filter((glint, i) => !glints.slice(0, i).some((brighter) => isFringeOf(glint, brighter)));
}

/** A sheen this near a brighter glint of the same lamp in the same thing is its fringe. */
const FRINGE_m = 0.25;

function isFringeOf(glint: Glint, brighter: Glint): boolean {
  return (
    glint.kind === 'sheen' &&
    glint.lamp === brighter.lamp &&
    glint.owner === brighter.owner &&
    (brighter.inFrame || !glint.inFrame) &&
    distance(glint.point_m, brighter.point_m) < FRINGE_m
  );
}

function glintsAt(
  search: GlintSearch,
  lampIndex: number,
  points: FacePoints,
  reflector: Reflector,
  centre: MirrorPoint,
): Glint[] {
  const { model, view, least_cd_m2 } = search;
  const { optics } = reflector;
  const eye = view.camera.position_m;
  const lamp = model.lamps[lampIndex]!;
  const nearest = reflector.nearestWithin(eye, lamp.frame.origin_m, centre);
  const open = lobeLuminance_cd_m2(lamp, optics, nearest.point_m, nearest.normal, eye, COARSE, null);
  const wide = optics.alpha >= WIDE_ALPHA;
  if (open * (wide ? ELSEWHERE_WIDE : ELSEWHERE_NARROW) < least_cd_m2) return [];

  const { shown, share } = imageSeen(model, view.camera, lamp, points, reflector, centre);
  const glint = (place: MirrorPoint, kind: Glint['kind']) =>
    describedGlint(search, lampIndex, reflector, place, kind, share);
  const framed = shown !== null && inFrame(view.camera, shown.point_m);
  if (framed && !wide) return glint(shown, 'image');

  const places = lobePlaces(search, lamp, reflector, nearest);
  if (wide) {
    const best = brightest(search, lamp, reflector, shown ? [shown, ...places] : places);
    return best ? glint(best, shown ? 'image' : 'sheen') : [];
  }
  const sheen = brightest(search, lamp, reflector, places);
  return [
    ...(shown ? glint(shown, 'image') : []),
    // Of an image out of frame the fringe may still be in it.
    ...(sheen && (!shown || inFrame(view.camera, sheen.point_m)) ? glint(sheen, 'sheen') : []),
  ];
}

/** From here on a lobe is so wide that the brightest place may lie well off the mirror image. */
const WIDE_ALPHA = 0.02;
/** How much brighter than where its centre is mirrored a lamp may show elsewhere in the lobe. */
const ELSEWHERE_WIDE = 100;
const ELSEWHERE_NARROW = 4;
