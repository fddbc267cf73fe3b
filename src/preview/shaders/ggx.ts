import type { Chunk } from './chunk.ts';
import { pi } from './pi.ts';

/** The GGX surface of microscopic mirrors; equations in the core's module. */
export const ggx: Chunk = {
  name: 'ggx',
  needs: [pi],
  code: /* glsl */ `
// D(h), 1/sr, for a unit half vector on the +z side.
float normalDensity(float alpha, vec3 h) {
  float a2 = alpha * alpha;
  float d = a2 * h.z * h.z + h.x * h.x + h.y * h.y;
  return a2 / (PI * d * d);
}

float smithRoot(float alpha, float cosTheta) {
  float c2 = cosTheta * cosTheta;
  return sqrt(c2 + alpha * alpha * (1.0 - c2));
}

// G₂/(4·c_i·c_o).
float visibility(float alpha, float cosI, float cosO) {
  return 0.5 / (cosO * smithRoot(alpha, cosI) + cosI * smithRoot(alpha, cosO));
}

// G₂/G₁(o).
float unshadowed(float alpha, float cosI, float cosO) {
  float rootO = smithRoot(alpha, cosO);
  return cosI * (cosO + rootO) / (cosO * smithRoot(alpha, cosI) + cosI * rootO);
}

// Density, 1/sr, of the reflection of o in a visible normal.
float reflectionDensity(float alpha, vec3 h, float cosO) {
  return normalDensity(alpha, h) / (2.0 * (cosO + smithRoot(alpha, cosO)));
}

// Unit normal of a mirror that is seen from o, o.z ≥ 0.
vec3 visibleNormal(float alpha, vec3 o, float u, float cosPhi, float sinPhi) {
  vec2 a = alpha * o.xy;
  float squeeze = 1.0 / sqrt(dot(a, a) + o.z * o.z);
  float sz = o.z * squeeze;
  vec2 s = a * squeeze;
  // c_z + s_z, and 1 + c_z with 1 − s_z = s_x² + s_y² over 1 + s_z; the rim is √((1 − c_z)(1 + c_z)), none of them cancelled.
  float hz = (1.0 + sz) * (1.0 - u);
  float rim = sqrt((1.0 + sz) * u * (dot(s, s) / (1.0 + sz) + hz));
  return normalize(vec3(alpha * (rim * vec2(cosPhi, sinPhi) + s), hz));
}
`,
};
