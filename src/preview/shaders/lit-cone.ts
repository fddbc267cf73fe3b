import type { Chunk } from './chunk.ts';

/**
 * The part of a ray that lies in a lamp's cone. The core's quadratic, with distances taken from the foot of the apex on the
 * ray: with q⊥ from there to the apex's plane across the ray, p = q⊥·a and A = (d·a)² − cos²,
 *   A·s² + 2p(d·a)·s + p² − cos²·|q⊥|² ≥ 0, discriminant cos²·(p² + A·|q⊥|²),
 * which does not cancel however far away the ray begins, and its roots by the pair that does not cancel either.
 */
export const withinCone: Chunk = {
  name: 'lit-cone',
  needs: [],
  code: /* glsl */ `
// The part of 0..D of a ray that lies in the cone, from and to; false where none does.
bool withinCone(vec3 apex, vec3 axis, float cosine, vec3 o, vec3 d, float D, out vec2 stretch) {
  vec3 q = o - apex;
  float foot = -dot(q, d);
  vec3 across = q + foot * d;
  float da = dot(d, axis);
  float p = dot(across, axis);
  float qa = dot(q, axis);
  float c2 = cosine * cosine;
  float A = da * da - c2;
  // Along an edge of the cone the quadratic is a straight line: a root so far off that it does not matter is put in.
  if (abs(A) < 1e-9) A = A < 0.0 ? -1e-9 : 1e-9;
  float B = p * da;
  float discriminant = c2 * (p * p + A * dot(across, across));
  stretch = vec2(0.0, D);
  if (discriminant <= 0.0) return A > 0.0 && qa > 0.0;
  float root = sqrt(discriminant);
  float sum = -(B + (B < 0.0 ? -root : root));
  float s1 = sum / A;
  float s2 = (p * p - c2 * dot(across, across)) / sum;
  float lower = min(s1, s2) + foot;
  float upper = max(s1, s2) + foot;
  if (A > 0.0) {
    if (da > 0.0) stretch.x = max(0.0, upper);
    else stretch.y = min(D, lower);
  } else {
    // Halfway between the roots lies on the side where p is.
    if (p <= 0.0) return false;
    stretch = vec2(max(0.0, lower), min(D, upper));
  }
  return stretch.y > stretch.x;
}
`,
};
