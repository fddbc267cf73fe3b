import { placeInFrame } from '../camera/thin-lens.ts';
import { stopsAbove } from '../exposure/stops.ts';
import { flatFaces } from '../geometry/flat-face.ts';
import type { LightModel, Pane } from '../light-model/light-model.ts';
import { degreesFromRadians } from '../math/angle.ts';
import { angleBetween, dot, length, scale, subtract, type Vec3 } from '../math/vec3.ts';
import { dielectricPolarised, sheetReflectance } from '../surfaces/fresnel.ts';
import { emitterOf } from '../transport/lamp-sight.ts';
import { faceLuminance_cd_m2 } from './face-luminance.ts';
import { facePoints } from './face-points.ts';
import { flatMirror } from './flat-mirror.ts';
import { type GlintView, LEAST_stops } from './glint.ts';
import { imageSeen } from './image-seen.ts';
import { inFrame } from './in-frame.ts';
import { hazePassed, passed } from './leg.ts';

/** A lamp mirrored in a flat pane, if that is clean, plain glass: what the light model itself leaves out of panes. */
export interface PaneImage {
  readonly lamp: number;
  readonly part: number;
  readonly owner: number;
  readonly pane: number;
  readonly point_m: Vec3;
  readonly normal: Vec3;
  readonly pixel: readonly [number, number] | null;
  readonly inFrame: boolean;
  readonly incidence_deg: number;
  /** Of both faces together, 2R/(1 + R), unpolarised. */
  readonly reflectance: number;
  readonly luminance_cd_m2: number;
  readonly stops: number;
  readonly faceShare: number;
}

/** Frosted glass and diffusion mirror nothing sharp. */
function isClear({ direct, scattered }: Pane): boolean {
  return direct > 0 && scattered <= direct;
}

/** Refractive index of window glass. */
export const GLASS_IOR = 1.5;

/** Brightest first; those under `least_stops` over middle grey are left out. */
export function findPaneImages(
  model: LightModel,
  view: GlintView,
  least_stops = LEAST_stops,
): readonly PaneImage[] {
  const found: PaneImage[] = [];
  const { camera, zero_cd_m2 } = view;
  const eye = camera.position_m;
  const least_cd_m2 = zero_cd_m2 * 2 ** least_stops;
  const panes = model.parts.flatMap(({ shape, substance, owner }, part) =>
    substance.kind === 'pane' && isClear(model.panes[substance.index]!)
      ? flatFaces(shape).map((face) => ({
          part,
          owner,
          pane: substance.index,
          mirror: flatMirror(face, part),
        }))
      : [],
  );
  for (const [index, lamp] of model.lamps.entries()) {
    if (lamp.gain <= 0) continue;
    const points = facePoints(lamp.face);
    for (const { part, owner, pane, mirror } of panes) {
      for (const centre of mirror.mirrored(eye, lamp.frame.origin_m)) {
        const { shown, share } = imageSeen(model, camera, lamp, points, mirror, centre);
        if (!shown) continue;
        const { point_m, normal } = shown;
        const toEye = subtract(eye, point_m);
        const toLamp = subtract(lamp.frame.origin_m, point_m);
        const w = scale(toLamp, 1 / length(toLamp));
        const { s, p } = dielectricPolarised(Math.abs(dot(w, normal)), GLASS_IOR);
        const reflectance = (sheetReflectance(s) + sheetReflectance(p)) / 2;
        const legs =
          passed(model, point_m, ...scale(toEye, 1 / length(toEye)), length(toEye)) *
          (passed(model, point_m, ...w, length(toLamp)) || hazePassed(model, point_m, lamp.frame.origin_m));
        const luminance_cd_m2 = reflectance * faceLuminance_cd_m2(emitterOf(lamp), ...scale(w, -1)) * legs;
        if (luminance_cd_m2 < least_cd_m2) continue;
        const place = placeInFrame(camera, point_m);
        found.push({
          lamp: index,
          part,
          owner,
          pane,
          point_m,
          normal,
          pixel: place && [place.u, place.v],
          inFrame: inFrame(camera, point_m),
          incidence_deg: degreesFromRadians(angleBetween(toLamp, normal)),
          reflectance,
          luminance_cd_m2,
          stops: stopsAbove(luminance_cd_m2, zero_cd_m2),
          faceShare: share,
        });
      }
    }
  }
  return found.sort((a, b) => b.luminance_cd_m2 - a.luminance_cd_m2);
}
