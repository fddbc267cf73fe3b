import type { Chunk } from './chunk.ts';
import { everyFeature } from './features.ts';
import { hazeRegion } from './haze-region.ts';

/** What haze lets through straight. */
export const hazeTransmittance: Chunk = {
  name: 'transmittance',
  needs: [everyFeature, hazeRegion],
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

// How much of 0..D of a ray with a unit direction lies in haze: all of it where haze is everywhere. From each place on to
// where the regions that hold it end, or the next begins, which needs no list of stretches, until one region is left.
float hazedLength_m(Haze haze, vec3 o, vec3 d, float D) {
#if HAS_HAZE_BOXES
  if (haze.everywhere) return D;
  float length_m = 0.0;
  float t = 0.0;
  for (int pass = 0; pass <= 2 * haze.regionCount; pass++) {
    int ahead = 0;
    float rest = 0.0;
    float reach = t;
    float next = D;
    for (int i = 0; i < haze.regionCount; i++) {
      vec2 within = hazeWithin(hazeRegionAt(i), o, d, D);
      if (within.y <= max(within.x, t)) continue;
      ahead++;
      rest = within.y - max(within.x, t);
      if (within.x <= t) reach = max(reach, within.y);
      else next = min(next, within.x);
    }
    if (ahead <= 1) return length_m + rest;
    length_m += reach - t;
    t = reach > t ? reach : next;
  }
  return length_m;
#else
  return D;
#endif
}

// e^(−σ_t·d) of what of 0..D of a ray with a unit direction is hazed.
float hazeTransmittance(vec3 o, vec3 d, float D) {
  Haze haze = theHaze();
  if (haze.extinction_per_m == 0.0) return 1.0;
  return exp(-haze.extinction_per_m * hazedLength_m(haze, o, d, D));
}
`,
};
