import type { CameraRay, ThinLens } from '../camera/thin-lens.ts';

/**
 * A place in the picture plane at unit distance before the lens: x to the picture's right, y up, both as tangents. The
 * frame reaches to ±halfWidth and ±halfHeight; equal lengths look equally long in the frame.
 */
export interface PlanePoint {
  readonly x: number;
  readonly y: number;
}

/** The pinhole ray through a place in the picture plane. */
export function rayThrough(lens: ThinLens, x: number, y: number, ray: CameraRay): void {
  const { position_m: p, forward: f, right: r, up: t } = lens;
  const dx = f[0] + x * r[0] + y * t[0];
  const dy = f[1] + x * r[1] + y * t[1];
  const dz = f[2] + x * r[2] + y * t[2];
  const l = Math.sqrt(dx * dx + dy * dy + dz * dz);
  ray.ox = p[0];
  ray.oy = p[1];
  ray.oz = p[2];
  ray.dx = dx / l;
  ray.dy = dy / l;
  ray.dz = dz / l;
}

/** The same place as parts of the frame, 0..1 from the left and from the top. */
export function frameFromPlane(
  lens: ThinLens,
  { x, y }: PlanePoint,
): { readonly u: number; readonly v: number } {
  return { u: 0.5 + x / (2 * lens.halfWidth), v: 0.5 - y / (2 * lens.halfHeight) };
}
