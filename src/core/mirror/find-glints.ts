import { placeInFrame } from '../camera/thin-lens.ts';
import { stopsAbove } from '../exposure/stops.ts';
import type { Lamp, LightModel } from '../light-model/light-model.ts';
import { degreesFromRadians } from '../math/angle.ts';
import { add, angleBetween, distance, length, scale, subtract, type Vec3 } from '../math/vec3.ts';
import { emitterOf } from '../transport/lamp-sight.ts';
import { faceLuminance_cd_m2 } from './face-luminance.ts';
import { type FacePoints, facePoints } from './face-points.ts';
import { CLIP_stops, type Glint, type GlintOptions, type GlintView, LEAST_stops } from './glint.ts';
import { lobeReach, patchAround, tangents } from './glint-patch.ts';
import { imageSeen, isThere, legIsFree } from './image-seen.ts';
import { inFrame, mayBeInFrame } from './in-frame.ts';
import { hazePassed, passed } from './leg.ts';
import { lobeLuminance_cd_m2 } from './lobe-luminance.ts';
import { luminousParts, polarisedReflectance } from './mirror-reflectance.ts';
import type { MirrorPoint, Reflector } from './reflector.ts';
import { reflectorsOf } from './reflectors-of.ts';

/**
 * Every place where a lit lamp shows in a glossy surface, for one camera: out of frame too unless told otherwise. Pure and
 * deterministic; brightest first.
 */
export function findGlints(model: LightModel, view: GlintView, options: GlintOptions = {}): readonly Glint[] {
  const all = reflectorsOf(model);
  const reflectors = options.inFrameOnly ? all.filter((r) => mayBeInFrame(view.camera, r.box_m)) : all;
  const search: Search = {
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

interface Search {
  readonly model: LightModel;
  readonly view: GlintView;
  readonly clip_stops: number;
  readonly least_cd_m2: number;
  readonly inFrameOnly: boolean;
  readonly withPatch: boolean;
}

/** How fine the luminance of a glint is integrated, and that of a look whether there is one. */
const FINE = 128;
const COARSE = 8;

function glintsAt(
  search: Search,
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
    describe(search, lampIndex, reflector, place, kind, share);
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

/** Directions and shares of the lobe's reach in which its brightest seen place is looked for. */
const TURNS = 8;
const REACHES = [0.15, 0.4, 0.7, 1];
/** Bisections of that reach. */
const ROUGHLY = 3;
/** Where nothing so near is seen, the surface is taken for hidden. */
const NEAR_m = [0.03, 0.3];

/** Places round one, on the surface and seen by the camera, at which the lobe may shine above what is looked for. */
function lobePlaces(search: Search, lamp: Lamp, reflector: Reflector, from: MirrorPoint): MirrorPoint[] {
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
function brightest(
  { model, view, least_cd_m2 }: Search,
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

function describe(
  { model, view, least_cd_m2, clip_stops, inFrameOnly, withPatch }: Search,
  lampIndex: number,
  reflector: Reflector,
  shown: MirrorPoint,
  kind: Glint['kind'],
  faceShare: number,
): Glint[] {
  const lamp = model.lamps[lampIndex]!;
  const { camera, zero_cd_m2 } = view;
  const eye = camera.position_m;
  const { optics } = reflector;
  const { point_m, normal, part } = shown;
  const framed = inFrame(camera, point_m);
  if (inFrameOnly && !framed) return [];
  const luminance = (seen: LightModel | null) =>
    lobeLuminance_cd_m2(lamp, optics, point_m, normal, eye, FINE, seen);
  const luminance_cd_m2 = luminance(model);
  if (luminance_cd_m2 < least_cd_m2) return [];
  const toEye = subtract(eye, point_m);
  const toLamp = subtract(lamp.frame.origin_m, point_m);
  // At the microscopic mirrors that send light this way; where the lamp's image is, at the surface itself.
  const incidence = angleBetween(toEye, toLamp) / 2;
  const polarised = polarisedReflectance(optics, luminousParts(lamp), Math.cos(incidence));
  const reflectance = (polarised.s + polarised.p) / 2;
  const stops = stopsAbove(luminance_cd_m2, zero_cd_m2);
  const place = placeInFrame(camera, point_m);
  const toCamera_m = length(toEye);
  const toLamp_m = length(toLamp);
  // Where the lamp's centre is hidden, what is seen of it comes past.
  const legs =
    passedOn(model, point_m, toEye, toCamera_m) *
    (passedOn(model, point_m, toLamp, toLamp_m) || hazePassed(model, point_m, lamp.frame.origin_m));
  const burns = stops >= clip_stops;
  // Haze, panes and what hides part of the lamp dim the whole patch as they dim this place.
  const clipOpen_cd_m2 = () => (zero_cd_m2 * 2 ** clip_stops * luminance(null)) / luminance_cd_m2;
  return [
    {
      lamp: lampIndex,
      part,
      owner: model.parts[part]!.owner,
      kind,
      point_m,
      normal,
      incidence_deg: degreesFromRadians(incidence),
      reflectance,
      polarised,
      inFrame: framed,
      pixel: place && [place.u, place.v],
      toCamera_m,
      toLamp_m,
      hazeLoss_stops: -Math.log2(
        hazePassed(model, point_m, eye) * hazePassed(model, point_m, lamp.frame.origin_m),
      ),
      luminance_cd_m2,
      mirror_cd_m2:
        reflectance * faceLuminance_cd_m2(emitterOf(lamp), ...scale(toLamp, -1 / toLamp_m)) * legs,
      stops,
      polarised_stops: stops + Math.log2(polarised.p / (polarised.s + polarised.p)),
      faceShare: kind === 'image' ? faceShare : 0,
      patch: burns && withPatch ? patchAround(lamp, reflector, camera, shown, clipOpen_cd_m2()) : null,
      approximate: reflector.approximate,
    },
  ];
}

function passedOn(model: LightModel, from: Vec3, to: Vec3, d: number): number {
  return passed(model, from, to[0] / d, to[1] / d, to[2] / d, d);
}
