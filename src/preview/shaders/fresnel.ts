import type { Chunk } from './chunk.ts';

/** Fresnel's equations, unpolarised. */
export const fresnel: Chunk = {
  name: 'fresnel',
  needs: [],
  code: /* glsl */ `
// n is the index beyond divided by the index before.
float dielectricReflectance(float cosTheta, float n) {
  float g2 = (n - 1.0) * (n + 1.0) + cosTheta * cosTheta;
  if (g2 <= 0.0) return 1.0;
  float g = sqrt(g2);
  float s = (cosTheta - g) / (cosTheta + g);
  float p = (n * n * cosTheta - g) / (n * n * cosTheta + g);
  return 0.5 * (s * s + p * p);
}

// Of a bare metal of index n + ik in air.
float conductorReflectance(float cosTheta, float n, float k) {
  float c2 = cosTheta * cosTheta;
  float s2 = 1.0 - c2;
  // n² − k² − s², which at grazing would lose c² in 1 − c².
  float t = (n - 1.0) * (n + 1.0) - k * k + c2;
  float m = 4.0 * n * n * k * k;
  float q = sqrt(t * t + m);
  // q + t, which cancels where k is larger than n, as of most metals.
  float sum = t >= 0.0 ? q + t : m / (q - t);
  float twoAC = sqrt(2.0 * sum) * cosTheta;
  float s = (q - twoAC + c2) / (q + twoAC + c2);
  float p = (q * c2 - twoAC * s2 + s2 * s2) / (q * c2 + twoAC * s2 + s2 * s2);
  return 0.5 * s * (1.0 + p);
}
`,
};
