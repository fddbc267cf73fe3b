import type { Chunk } from './chunk.ts';

/**
 * Logarithm and exponential where single precision would lose them: GLSL promises log only to 5·10⁻⁷ absolute near 1, which
 * is all there is of thin haze, and as much as half a per cent of a narrow lobe's cos^m.
 */
export const nearOne: Chunk = {
  name: 'near-one',
  needs: [],
  code: /* glsl */ `
// log(1 + x), x > −1: by log y = 2·artanh((y − 1)/(y + 1)) where y = 1 + x is near 1.
float log1p(float x) {
  if (abs(x) > 0.3) return log(1.0 + x);
  float z = x / (2.0 + x);
  float z2 = z * z;
  return 2.0 * z * (1.0 + z2 * (1.0 / 3.0 + z2 * (1.0 / 5.0 + z2 * (1.0 / 7.0 + z2 / 9.0))));
}

// exp(x) − 1.
float expm1(float x) {
  if (abs(x) > 0.3) return exp(x) - 1.0;
  return x * (1.0 + x / 2.0 * (1.0 + x / 3.0 * (1.0 + x / 4.0 * (1.0 + x / 5.0 * (1.0 + x / 6.0)))));
}

// y^m for 0 < y ≤ 1, accurate for large m too.
float powerOf(float y, float m) {
  return exp(m * log1p(y - 1.0));
}
`,
};
