import { radiansFromDegrees } from '../math/angle.ts';
import { add, cross, distance, normalize, scale, subtract, type Vec3 } from '../math/vec3.ts';
import { croppedSensor_mm } from '../optics/field-of-view.ts';

/** A camera as its frame is computed from it: where it stands, what its lens takes in, how wide it is open. */
export interface ThinLens {
  readonly position_m: Vec3;
  /** Unit axes: where it looks, the picture's right, the picture's up. */
  readonly forward: Vec3;
  readonly right: Vec3;
  readonly up: Vec3;
  /** Half the picture at unit distance, across and up. */
  readonly halfWidth: number;
  readonly halfHeight: number;
  /** Radius of the entrance pupil, f/2N. */
  readonly pupil_m: number;
  /** Distance of the plane in focus, along `forward`. */
  readonly focus_m: number;
}

export interface CameraPlace {
  readonly position_m: Vec3;
  readonly look_m: Vec3;
  readonly roll_deg: number;
  readonly sensor_mm: readonly [number, number];
  readonly aspect: number;
  readonly focal_mm: number;
  readonly fNumber: number;
  /** The look point is in focus when left out. */
  readonly focus_m: number | null;
}

/** A rectilinear thin lens; the angle of view is that at infinity, as lens tables give it. Roll turns the camera clockwise. */
export function thinLens(place: CameraPlace): ThinLens {
  const forward = normalize(subtract(place.look_m, place.position_m));
  const vertical = Math.hypot(forward[0], forward[2]) < 1e-6;
  const level = normalize(cross(forward, vertical ? [0, 0, -1] : [0, 1, 0]));
  const upright = cross(level, forward);
  const [c, s] = [Math.cos(radiansFromDegrees(place.roll_deg)), Math.sin(radiansFromDegrees(place.roll_deg))];
  const [width, height] = croppedSensor_mm(place.sensor_mm, place.aspect);
  return {
    position_m: place.position_m,
    forward,
    right: add(scale(level, c), scale(upright, -s)),
    up: add(scale(upright, c), scale(level, s)),
    halfWidth: width / (2 * place.focal_mm),
    halfHeight: height / (2 * place.focal_mm),
    pupil_m: place.focal_mm / 1000 / (2 * place.fNumber),
    focus_m: place.focus_m ?? distance(place.look_m, place.position_m),
  };
}

/** A ray into the scene; unit direction. */
export interface CameraRay {
  ox: number;
  oy: number;
  oz: number;
  dx: number;
  dy: number;
  dz: number;
}

export function newCameraRay(): CameraRay {
  return { ox: 0, oy: 0, oz: 0, dx: 0, dy: 0, dz: 1 };
}

/**
 * The ray through a place in the frame (u to the right, v down, 0..1) and a point of the pupil, in units of its radius; the
 * middle of the pupil makes a pinhole camera.
 */
export function aimThrough(
  lens: ThinLens,
  u: number,
  v: number,
  pupilX: number,
  pupilY: number,
  ray: CameraRay,
): void {
  const { position_m: p, forward: f, right: r, up: t, focus_m } = lens;
  const x = (2 * u - 1) * lens.halfWidth;
  const y = (1 - 2 * v) * lens.halfHeight;
  const a = pupilX * lens.pupil_m;
  const b = pupilY * lens.pupil_m;
  ray.ox = p[0] + a * r[0] + b * t[0];
  ray.oy = p[1] + a * r[1] + b * t[1];
  ray.oz = p[2] + a * r[2] + b * t[2];
  // All rays through one place of the frame meet in the plane of focus.
  const kx = x - a / focus_m;
  const ky = y - b / focus_m;
  const dx = f[0] + kx * r[0] + ky * t[0];
  const dy = f[1] + kx * r[1] + ky * t[1];
  const dz = f[2] + kx * r[2] + ky * t[2];
  const l = Math.sqrt(dx * dx + dy * dy + dz * dz);
  ray.dx = dx / l;
  ray.dy = dy / l;
  ray.dz = dz / l;
}

/** Where a point of the scene lies in the frame; null behind the camera. Outside 0..1 it is out of frame. */
export function placeInFrame(
  lens: ThinLens,
  point_m: Vec3,
): { readonly u: number; readonly v: number } | null {
  const d = subtract(point_m, lens.position_m);
  const along = (axis: Vec3) => d[0] * axis[0] + d[1] * axis[1] + d[2] * axis[2];
  const depth = along(lens.forward);
  if (depth <= 0) return null;
  return {
    u: 0.5 + along(lens.right) / depth / lens.halfWidth / 2,
    v: 0.5 - along(lens.up) / depth / lens.halfHeight / 2,
  };
}
