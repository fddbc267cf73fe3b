import type { Chunk } from './chunk.ts';
import { clearance } from './clearance.ts';
import { rayQuery } from './ray-query.ts';
import { thinLens } from './thin-lens.ts';
import { viewOfCamera } from './view-of-camera.ts';

/**
 * What the middle of each pixel sees, in focus: its normal toward the camera with the flat or round part that it is on, and the
 * place of the thing among the owners (−1 for none). For looks, and for the filter that must not blur across edges.
 */
export const guide: Chunk = {
  name: 'guide',
  needs: [clearance, rayQuery, thinLens, viewOfCamera],
  code: /* glsl */ `
layout(location = 0) out vec4 normalAndPart;
layout(location = 1) out vec4 owner;

void main() {
  vec3 o;
  vec3 d;
  rayOfCamera(vec2(0.5), vec2(0.0), o, d);
  Hit hit;
  normalAndPart = vec4(0.0, 0.0, 0.0, -1.0);
  owner = vec4(-1.0);
  if (!nearestHit(o, d, 0.0, FAR_m, hit)) return;
  normalAndPart = vec4(dot(hit.normal, d) > 0.0 ? -hit.normal : hit.normal, float(hit.part));
  owner = vec4(float(hit.owner));
}
`,
};
