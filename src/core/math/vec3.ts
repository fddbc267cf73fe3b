/** A point or a direction in metres, right-handed, y up. Small immutable triples; hot loops use plain scalars. */
export type Vec3 = readonly [number, number, number];

export function add(p: Vec3, q: Vec3): Vec3 {
  return [p[0] + q[0], p[1] + q[1], p[2] + q[2]];
}

export function subtract(p: Vec3, q: Vec3): Vec3 {
  return [p[0] - q[0], p[1] - q[1], p[2] - q[2]];
}

export function scale(p: Vec3, s: number): Vec3 {
  return [p[0] * s, p[1] * s, p[2] * s];
}

export function dot(p: Vec3, q: Vec3): number {
  return p[0] * q[0] + p[1] * q[1] + p[2] * q[2];
}

export function cross(p: Vec3, q: Vec3): Vec3 {
  return [p[1] * q[2] - p[2] * q[1], p[2] * q[0] - p[0] * q[2], p[0] * q[1] - p[1] * q[0]];
}

export function length(p: Vec3): number {
  return Math.hypot(p[0], p[1], p[2]);
}

export function distance(p: Vec3, q: Vec3): number {
  return length(subtract(p, q));
}

/** Unit vector along p. The zero vector stays zero: the caller decides what "no direction" means. */
export function normalize(p: Vec3): Vec3 {
  const l = length(p);
  return l > 0 ? scale(p, 1 / l) : [0, 0, 0];
}

/** Angle between two directions in radians, by atan2 because acos loses half its digits near 0 and π. */
export function angleBetween(p: Vec3, q: Vec3): number {
  return Math.atan2(length(cross(p, q)), dot(p, q));
}
