import { placeInFrame, type ThinLens } from '../camera/thin-lens.ts';
import type { Lamp } from '../light-model/light-model.ts';
import { cross, dot, length, normalize, scale, subtract, type Vec3 } from '../math/vec3.ts';
import type { GlintPatch } from './glint.ts';
import { lobeLuminance_cd_m2 } from './lobe-luminance.ts';
import type { MirrorPoint, Reflector } from './reflector.ts';

/** Samples of a look at how bright a place is: a patch's size needs no more. */
const LOOK = 16;
const FIRST_m = 4e-3;
const GROWTH = 4;
const FARTHEST_m = 100;
const BISECTIONS = 9;

/** The two directions across a normal: in the plane of incidence, away from the eye, and square to that. */
export function tangents(normal: Vec3, toEye: Vec3): { along: Vec3; across: Vec3 } {
  const flat = subtract(scale(normal, dot(toEye, normal)), toEye);
  const l = length(flat);
  const along =
    l > 1e-9 * length(toEye)
      ? scale(flat, 1 / l)
      : normalize(cross(normal, Math.abs(normal[1]) < 0.9 ? [0, 1, 0] : [1, 0, 0]));
  return { along, across: cross(normal, along) };
}

/**
 * How far along the surface from a place a lamp's lobe stays above a luminance with nothing in the way, and where that is.
 * It ends at the outline of the surface.
 */
export function lobeReach(
  lamp: Lamp,
  reflector: Reflector,
  eye: Vec3,
  from: MirrorPoint,
  direction: Vec3,
  least_cd_m2: number,
  bisections: number,
  samples: number,
): { readonly distance_m: number; readonly end: MirrorPoint } {
  const bright = (x: number) => {
    const q = reflector.walk(from, direction, x);
    if (!q.within) return false;
    const L = lobeLuminance_cd_m2(lamp, reflector.optics, q.point_m, q.normal, eye, samples, null);
    return L >= least_cd_m2;
  };
  let inside = 0;
  let outside = FIRST_m;
  while (outside < FARTHEST_m && bright(outside)) {
    inside = outside;
    outside *= GROWTH;
  }
  for (let i = 0; i < bisections; i++) {
    const middle = (inside + outside) / 2;
    if (bright(middle)) inside = middle;
    else outside = middle;
  }
  return { distance_m: inside, end: reflector.walk(from, direction, inside) };
}

/** Size of what lies above a luminance round a place. */
export function patchAround(
  lamp: Lamp,
  reflector: Reflector,
  camera: ThinLens,
  from: MirrorPoint,
  least_cd_m2: number,
): GlintPatch {
  const eye = camera.position_m;
  const { along, across } = tangents(from.normal, subtract(eye, from.point_m));
  const reach = (direction: Vec3) =>
    lobeReach(lamp, reflector, eye, from, direction, least_cd_m2, BISECTIONS, LOOK);
  const [forth, back] = [reach(along), reach(scale(along, -1))];
  const [left, right] = [reach(across), reach(scale(across, -1))];
  return {
    along_m: forth.distance_m + back.distance_m,
    across_m: left.distance_m + right.distance_m,
    ofFrameWidth: Math.max(
      apartInFrame(camera, forth.end.point_m, back.end.point_m),
      apartInFrame(camera, left.end.point_m, right.end.point_m),
    ),
  };
}

/** How far apart two places lie in the picture, in widths of it; infinitely where one is not before the camera. */
function apartInFrame(camera: ThinLens, p: Vec3, q: Vec3): number {
  const [a, b] = [placeInFrame(camera, p), placeInFrame(camera, q)];
  if (!a || !b) return Number.POSITIVE_INFINITY;
  return Math.hypot(a.u - b.u, ((a.v - b.v) * camera.halfHeight) / camera.halfWidth);
}
