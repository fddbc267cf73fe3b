import type { Vec3 } from '../math/vec3.ts';
import type { SurfaceOptics } from '../surfaces/surface-optics.ts';

/** A place of a reflecting surface, carried on past its edges. */
export interface MirrorPoint {
  readonly point_m: Vec3;
  /** Unit, on the side of whoever looks. */
  readonly normal: Vec3;
  /** The part of the light model that it is on. */
  readonly part: number;
  /** Whether it is within the outline of the surface; openings are not looked at. */
  readonly within: boolean;
}

/** The shape of a surface as a mirror: flat, round, or a mesh. */
export interface Mirror {
  readonly approximate: boolean;
  /** Everywhere that a point is mirrored for an eye; on a curved surface these may be several. */
  readonly mirrored: (eye_m: Vec3, point_m: Vec3) => readonly MirrorPoint[];
  /** Where another point close to it is mirrored, starting from one of these; null where it is not. */
  readonly follow: (eye_m: Vec3, point_m: Vec3, from: MirrorPoint) => MirrorPoint | null;
  /** Whether a part of the light model belongs to it. */
  readonly holds: (part: number) => boolean;
  /** The place within the outline whose slope misses the mirror direction least. */
  readonly nearestWithin: (eye_m: Vec3, point_m: Vec3, from: MirrorPoint) => MirrorPoint;
  /** Along the surface from a place, in a unit direction tangent to it; may lead past the edge. */
  readonly walk: (from: MirrorPoint, direction: Vec3, distance_m: number) => MirrorPoint;
}

/** A mirror with a finish. */
export interface Reflector extends Mirror {
  readonly optics: SurfaceOptics;
  /** Lowest x, y, z and highest x, y, z of its parts. */
  readonly box_m: Float64Array;
}
