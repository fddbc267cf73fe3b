import type { Chunk } from './chunk.ts';
import { clearance } from './clearance.ts';
import { rayQuery } from './ray-query.ts';
import { thinLens } from './thin-lens.ts';
import { viewOfCamera } from './view-of-camera.ts';

/**
 * What the middle of each pixel sees, in focus: its normal toward the camera with the place of the thing among the owners
 * (−1 for none), and how far it is. For outlines, for picking, and for the filter that must not blur across edges.
 */
export const guide: Chunk = {
  name: 'guide',
  needs: [clearance, rayQuery, thinLens, viewOfCamera],
  code: /* glsl */ `
layout(location = 0) out vec4 normalAndOwner;
layout(location = 1) out vec4 distanceAndPart;

void main() {
  vec3 o;
  vec3 d;
  rayOfCamera(vec2(0.5), vec2(0.0), o, d);
  Hit hit;
  normalAndOwner = vec4(0.0, 0.0, 0.0, -1.0);
  distanceAndPart = vec4(FAR_m, -1.0, 0.0, 0.0);
  if (!nearestHit(o, d, 0.0, FAR_m, hit)) return;
  normalAndOwner = vec4(dot(hit.normal, d) > 0.0 ? -hit.normal : hit.normal, float(hit.owner));
  distanceAndPart = vec4(hit.t, float(hit.part), 0.0, 0.0);
}
`,
};
