import type { Chunk } from './chunk.ts';

/**
 * What round shapes share. Each first moves the origin of the line to where it passes the shape's centre closest: from far
 * away the quadratic would otherwise subtract large numbers that differ in their last digits only.
 */
export const rayRound: Chunk = {
  name: 'ray-round',
  needs: [],
  code: /* glsl */ `
// sin² of the angle to a cylinder's axis under which a line counts as parallel: it drifts 1 µm in a metre.
const float PARALLEL = 1e-12;

// Moves p of a local line p + t·q to its closest approach to the local origin; returns the t of that point.
float recentre(inout vec3 p, vec3 q, float dd) {
  float t = -dot(p, q) / dd;
  p += t * q;
  return t;
}

// q_x² + q_z², or 0 where the line is parallel to the y axis.
float acrossAxisSquared(vec3 q, float dd) {
  float a = dot(q.xz, q.xz);
  return a > PARALLEL * dd ? a : 0.0;
}

// Discriminant of |p + t·q|² = r² in the xz-plane, quarter of the textbook's: a·r² − (p × q)², which does not lose digits
// as b² − a·c does.
float tubeDiscriminant(vec3 p, vec3 q, float acrossSquared, float radius) {
  float cross = p.x * q.z - p.z * q.x;
  return acrossSquared * radius * radius - cross * cross;
}
`,
};
