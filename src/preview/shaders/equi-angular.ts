import type { Chunk } from './chunk.ts';

/**
 * Equi-angular sampling of a distance along a ray, from one of three stretches of it that is chosen by its chance. The core
 * turns angles from −π/2 to π/2 into distances; a ray that passes close by a light has nearly all its length at those two
 * ends, where single precision has no digits left. So here distances are measured from the nearer end of the stretch: with
 * A = from − foot and φ the angle from that end,
 *   t − from = (h² + A²)·sin φ/(h·cos φ − A·sin φ),
 * and the whole angle is atan(h·(to − from), h² + A·B), B = to − foot. Both are written by τ = tan(φ/2).
 */
export const equiAngular: Chunk = {
  name: 'equi-angular',
  needs: [],
  code: /* glsl */ `
// h is kept above this, so that a ray through the light itself stays finite.
const float LEAST_OFFSET_m = 1e-4;

// Three stretches of a ray as a light sees them: its foot on the ray, how far off the ray it is, how often a distance is
// drawn from each of them, where they begin and end, and the angles under which they are seen.
struct EquiAngular {
  float foot_m;
  float h;
  vec3 chances;
  vec3 from_m;
  vec3 to_m;
  vec3 angles;
};

EquiAngular equiAngularOf(float foot_m, float offset_m, vec3 chances, vec3 from_m, vec3 to_m) {
  float h = max(offset_m, LEAST_OFFSET_m);
  vec3 angles = atan(h * (to_m - from_m), h * h + (from_m - foot_m) * (to_m - foot_m));
  return EquiAngular(foot_m, h, chances, from_m, to_m, angles);
}

// tan x for 0 ≤ x ≤ π/4, to 1e-7 relative (Padé); the built-in one promises far less for small angles.
float tangentOf(float x) {
  float x2 = x * x;
  return x * (945.0 - x2 * (105.0 - x2)) / (945.0 - x2 * (420.0 - 15.0 * x2));
}

// A distance, from the stretch that the first number chooses, by the second.
float equiAngularPlace(EquiAngular seen, float which, float u) {
  bool isFirst = which < seen.chances.x;
  bool isSecond = !isFirst && which < seen.chances.x + seen.chances.y;
  vec3 chosen = vec3(isFirst, isSecond, !isFirst && !isSecond);
  float from_m = dot(chosen, seen.from_m);
  float to_m = dot(chosen, seen.to_m);
  float h = seen.h;
  bool nearFrom = u < 0.5;
  // Seen from the far end the stretch lies the other way round.
  float E = nearFrom ? from_m - seen.foot_m : seen.foot_m - to_m;
  float tau = tangentOf(0.5 * dot(chosen, seen.angles) * (nearFrom ? u : 1.0 - u));
  float passed = (h * h + E * E) * 2.0 * tau / max(1e-30, h * (1.0 - tau * tau) - 2.0 * E * tau);
  return clamp(nearFrom ? from_m + passed : to_m - passed, from_m, to_m);
}

// The density, per metre, with which equiAngularPlace gives t, over all three stretches.
float equiAngularDensity(EquiAngular seen, float t) {
  vec3 within = step(seen.from_m, vec3(t)) * step(vec3(t), seen.to_m);
  float across = t - seen.foot_m;
  return dot(within, seen.chances / max(vec3(1e-30), seen.angles)) * seen.h / (seen.h * seen.h + across * across);
}
`,
};
