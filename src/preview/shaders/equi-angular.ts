import type { Chunk } from './chunk.ts';

/**
 * Equi-angular sampling of a distance along a ray. The core turns angles from −π/2 to π/2 into distances; a ray that passes
 * close by a light has nearly all its length at those two ends, where single precision has no digits left. So here
 * distances are measured from the nearer end of the stretch: with A = from − foot and φ the angle from that end,
 *   t − from = (h² + A²)·sin φ/(h·cos φ − A·sin φ),
 * and the whole angle is atan(h·(to − from), h² + A·B), B = to − foot. Both are written by τ = tan(φ/2).
 */
export const equiAngular: Chunk = {
  name: 'equi-angular',
  needs: [],
  code: /* glsl */ `
struct EquiAngular {
  float t;
  float pdf;
};

// h is kept above this, so that a ray through the light itself stays finite.
const float LEAST_OFFSET_m = 1e-4;

// Angle under which the stretch is seen from the light.
float angleSeen(float h, float foot_m, float from_m, float to_m) {
  return atan(h * (to_m - from_m), h * h + (from_m - foot_m) * (to_m - foot_m));
}

// tan x for 0 ≤ x ≤ π/4, to 1e-7 relative (Padé); the built-in one promises far less for small angles.
float tangentOf(float x) {
  float x2 = x * x;
  return x * (945.0 - x2 * (105.0 - x2)) / (945.0 - x2 * (420.0 - 15.0 * x2));
}

EquiAngular sampleEquiAngular(float foot_m, float offset_m, float from_m, float to_m, float u) {
  float h = max(offset_m, LEAST_OFFSET_m);
  float angle = angleSeen(h, foot_m, from_m, to_m);
  bool nearFrom = u < 0.5;
  // Seen from the far end the stretch lies the other way round.
  float E = nearFrom ? from_m - foot_m : foot_m - to_m;
  float tau = tangentOf(0.5 * angle * (nearFrom ? u : 1.0 - u));
  float passed = (h * h + E * E) * 2.0 * tau / max(1e-30, h * (1.0 - tau * tau) - 2.0 * E * tau);
  float t = clamp(nearFrom ? from_m + passed : to_m - passed, from_m, to_m);
  float across = t - foot_m;
  return EquiAngular(t, h / (angle * (h * h + across * across)));
}

// The density with which sampleEquiAngular draws t from the same stretch; 0 outside it.
float equiAngularPdf(float foot_m, float offset_m, float from_m, float to_m, float t) {
  if (t < from_m || t > to_m) return 0.0;
  float h = max(offset_m, LEAST_OFFSET_m);
  float across = t - foot_m;
  return h / (angleSeen(h, foot_m, from_m, to_m) * (h * h + across * across));
}
`,
};
