import type { Chunk } from './chunk.ts';

/**
 * Points of the unit circle to 1e-7. GLSL promises its own sine and cosine only to 5·10⁻⁴, and software drawing is off by
 * 2·10⁻⁴, which directions and places on a face would carry on. Polynomials: Moshier, Cephes (public domain), for −π/4..π/4.
 */
export const circle: Chunk = {
  name: 'circle',
  needs: [],
  code: /* glsl */ `
// cos x and sin x for |x| ≤ π/4.
vec2 smallAngle(float x) {
  float x2 = x * x;
  float s = x + x * x2 * ((-1.9515295891e-4 * x2 + 8.3321608736e-3) * x2 - 1.6666654611e-1);
  float c = 1.0 - 0.5 * x2 + x2 * x2 * ((2.443315711809948e-5 * x2 - 1.388731625493765e-3) * x2 + 4.166664568298827e-2);
  return vec2(c, s);
}

// cos 2πu and sin 2πu for 0 ≤ u ≤ 1.
vec2 unitCircle(float u) {
  float quarter = floor(4.0 * u + 0.5);
  vec2 p = smallAngle(6.28318530717959 * (u - 0.25 * quarter));
  if (quarter == 1.0) return vec2(-p.y, p.x);
  if (quarter == 2.0) return -p;
  return quarter == 3.0 ? vec2(p.y, -p.x) : p;
}
`,
};
