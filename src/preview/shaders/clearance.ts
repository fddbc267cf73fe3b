import type { Chunk } from './chunk.ts';

/**
 * How rays leave surfaces and stop short of lamps. The core's 10 µm is less than single precision can tell at ten metres
 * from the origin, so a ray leaves from a little way off the surface instead, farther where coordinates are larger.
 */
export const clearance: Chunk = {
  name: 'clearance',
  needs: [],
  code: /* glsl */ `
const float FAR_m = 1e5;

float clearance_m(float distance_m) {
  return max(1e-4, 1e-6 * distance_m);
}

// A point of a surface, off it toward the side that n points to.
vec3 liftedOff(vec3 p, vec3 n) {
  vec3 size = abs(p);
  return p + (2e-5 + 2e-6 * max(size.x, max(size.y, size.z))) * n;
}
`,
};
