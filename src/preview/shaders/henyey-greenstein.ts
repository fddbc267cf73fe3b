import type { Chunk } from './chunk.ts';
import { pi } from './pi.ts';

/** Phase function of Henyey & Greenstein, per steradian; θ from the direction of travel. */
export const henyeyGreenstein: Chunk = {
  name: 'henyey-greenstein',
  needs: [pi],
  code: /* glsl */ `
// 1 + g² − 2g·cos θ as (1 − |g|)² + 2|g|·(1 ∓ cos θ), which keeps its digits in the peak of a narrow lobe.
float henyeyGreenstein(float g, float cosTheta) {
  float k = abs(g);
  float off = 1.0 - (g < 0.0 ? -cosTheta : cosTheta);
  float s = (1.0 - k) * (1.0 - k) + 2.0 * k * off;
  return (1.0 - g) * (1.0 + g) / (2.0 * TWO_PI * s * sqrt(s));
}

// cos θ drawn from it.
float sampleHenyeyGreenstein(float g, float u) {
  if (abs(g) < 1e-3) return 1.0 - 2.0 * u + 6.0 * g * u * (1.0 - u);
  float k = abs(g);
  float s = (1.0 - k) * (1.0 + k) / (1.0 - k + 2.0 * k * (g < 0.0 ? 1.0 - u : u));
  return clamp((1.0 + g * g - s * s) / (2.0 * g), -1.0, 1.0);
}
`,
};
