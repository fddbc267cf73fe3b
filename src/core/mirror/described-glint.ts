import { placeInFrame } from '../camera/thin-lens.ts';
import { stopsAbove } from '../exposure/stops.ts';
import type { LightModel } from '../light-model/light-model.ts';
import { degreesFromRadians } from '../math/angle.ts';
import { angleBetween, length, scale, subtract, type Vec3 } from '../math/vec3.ts';
import { emitterOf } from '../transport/lamp-sight.ts';
import { faceLuminance_cd_m2 } from './face-luminance.ts';
import type { Glint } from './glint.ts';
import { patchAround } from './glint-patch.ts';
import type { GlintSearch } from './glint-search.ts';
import { inFrame } from './in-frame.ts';
import { hazePassed, passed } from './leg.ts';
import { lobeLuminance_cd_m2 } from './lobe-luminance.ts';
import { luminousParts, polarisedReflectance } from './mirror-reflectance.ts';
import type { MirrorPoint, Reflector } from './reflector.ts';

/** Samples of the luminance that is reported: it is good to 1.5 %. */
const FINE = 128;

/** A glint at a place, or nothing where it is too dim or not wanted. */
export function describedGlint(
  { model, view, least_cd_m2, clip_stops, inFrameOnly, withPatch }: GlintSearch,
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
