import type { Chunk } from './chunk.ts';
import { hazeRegion } from './haze-region.ts';

/** What haze lets through straight. */
export const hazeTransmittance: Chunk = {
  name: 'transmittance',
  needs: [hazeRegion],
  code: /* glsl */ `
struct Haze {
  // 0 where there is no haze.
  float extinction_per_m;
  float albedo;
  float anisotropy;
  // It is everywhere; the one region then only bounds where paths are scattered.
  bool everywhere;
  int regionCount;
};

// Defined where the light model is read.
Haze theHaze();

// How much of 0..D of a ray with a unit direction lies in haze: all of it where haze is everywhere.
float hazedLength_m(Haze haze, vec3 o, vec3 d, float D) {
  if (haze.everywhere) return D;
  if (haze.regionCount == 1) {
    vec2 within = hazeWithin(hazeRegionAt(0), o, d, D);
    return max(0.0, within.y - within.x);
  }
  HazeStretches stretches;
  hazeAlong(haze.regionCount, o, d, D, stretches);
  return stretches.length_m;
}

// e^(−σ_t·d) of what of 0..D of a ray with a unit direction is hazed.
float hazeTransmittance(vec3 o, vec3 d, float D) {
  Haze haze = theHaze();
  if (haze.extinction_per_m == 0.0) return 1.0;
  return exp(-haze.extinction_per_m * hazedLength_m(haze, o, d, D));
}
`,
};
