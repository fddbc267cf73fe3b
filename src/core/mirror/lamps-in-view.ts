import { placeInFrame, type ThinLens } from '../camera/thin-lens.ts';
import { stopsAbove } from '../exposure/stops.ts';
import { nearestHit } from '../geometry/ray-query.ts';
import { newHit } from '../geometry/ray-shape.ts';
import { faceArea_m2 } from '../lamps/face.ts';
import type { Lamp, LightModel } from '../light-model/light-model.ts';
import { degreesFromRadians } from '../math/angle.ts';
import { angleBetween, distance, dot, length, normalize, scale, subtract, type Vec3 } from '../math/vec3.ts';
import { emitterOf } from '../transport/lamp-sight.ts';
import { faceLuminance_cd_m2 } from './face-luminance.ts';
import { facePoints } from './face-points.ts';
import type { GlintView } from './glint.ts';
import { onLampFace } from './image-seen.ts';
import { inFrame } from './in-frame.ts';
import { passed } from './leg.ts';

/** A lit lamp as the camera sees it straight. */
export interface LampInView {
  readonly lamp: number;
  readonly distance_m: number;
  /** Between the optical axis and the lamp's centre. */
  readonly offAxis_deg: number;
  /** Whether any of its face, free or hidden, is in frame, and where its centre is; null behind the camera. */
  readonly inFrame: boolean;
  readonly pixel: readonly [number, number] | null;
  /** Whether its emitting side is turned to the camera at all. */
  readonly facing: boolean;
  /** Share of its face that nothing opaque hides. */
  readonly faceShare: number;
  /** Owner of what hides its centre; −1 where nothing does. */
  readonly hiddenBy: number;
  /** Of the part of the face that is seen; 0 from behind and where all is hidden. */
  readonly luminance_cd_m2: number;
  readonly stops: number;
  /** At the entrance pupil, square to the optical axis, straight light only. */
  readonly lens_lx: number;
}

/** Every lit lamp, those first that throw the most light at the lens. */
export function lampsInView(model: LightModel, view: GlintView): readonly LampInView[] {
  return [...model.lamps.keys()]
    .filter((index) => model.lamps[index]!.gain > 0)
    .map((index) => lampInView(model, view, index))
    .sort((a, b) => b.lens_lx - a.lens_lx);
}

function lampInView(model: LightModel, { camera, zero_cd_m2 }: GlintView, index: number): LampInView {
  const lamp = model.lamps[index]!;
  const eye = camera.position_m;
  const centre = lamp.frame.origin_m;
  const { even, rim } = facePoints(lamp.face);
  const points = even.map((p) => onLampFace(lamp, p));
  let [free, light, lens_lx] = [0, 0, 0];
  for (const s of points) {
    const ray = seenAlong(model, lamp, camera, s);
    if (ray.passed > 0) free++;
    light += ray.luminance_cd_m2;
    lens_lx += ray.lens_lx / points.length;
  }
  const luminance_cd_m2 = free > 0 ? light / free : 0;
  const place = placeInFrame(camera, centre);
  const outline = [centre, ...points, ...rim.map((p) => onLampFace(lamp, p))];
  return {
    lamp: index,
    distance_m: distance(eye, centre),
    offAxis_deg: degreesFromRadians(angleBetween(subtract(centre, eye), camera.forward)),
    inFrame: outline.some((s) => inFrame(camera, s)),
    pixel: place && [place.u, place.v],
    facing: dot(subtract(eye, centre), lamp.frame.a) > 0,
    faceShare: free / points.length,
    hiddenBy: ownerBetween(model, eye, centre),
    luminance_cd_m2,
    stops: stopsAbove(luminance_cd_m2, zero_cd_m2),
    lens_lx,
  };
}

function seenAlong(model: LightModel, lamp: Lamp, camera: ThinLens, s: Vec3) {
  const toEye = subtract(camera.position_m, s);
  const d = length(toEye);
  const w = scale(toEye, 1 / d);
  const open = passed(model, s, ...w, d);
  const L = open * faceLuminance_cd_m2(emitterOf(lamp), ...w);
  const cosGamma = dot(w, lamp.frame.a);
  const cosLens = Math.max(0, -dot(w, camera.forward));
  return {
    passed: open,
    luminance_cd_m2: L,
    lens_lx: (L * faceArea_m2(lamp.face) * Math.max(0, cosGamma) * cosLens) / (d * d),
  };
}

const hit = newHit();

function ownerBetween({ geometry, parts }: LightModel, eye: Vec3, s: Vec3): number {
  const d = distance(eye, s);
  let from = 1e-5;
  // Panes are looked through.
  while (nearestHit(geometry, ...eye, ...normalize(subtract(s, eye)), from, d - 1e-5, hit)) {
    const { substance, owner } = parts[hit.shape]!;
    if (substance.kind === 'material') return owner;
    from = hit.t + 1e-5;
  }
  return -1;
}
