import type { Chunk } from './chunk.ts';
import { ray } from './ray.ts';

/** |o + t·d − c|² = r², solved from the point of closest approach: t = t_c ± √((r² − m²)/d·d), m the miss distance. */
export const raySphere: Chunk = {
  name: 'ray-sphere',
  needs: [ray],
  code: /* glsl */ `
bool sphereCrossings(Body body, Ray ray, out Crossings found) {
  vec3 from = ray.o - body.origin;
  float closest = -dot(from, ray.d) / ray.dd;
  vec3 miss = from + closest * ray.d;
  float h2 = body.p * body.p - dot(miss, miss);
  if (h2 <= 0.0) return false;
  float side = sqrt(h2 / ray.dd);
  found = Crossings(closest - side, closest + side, 0, 0);
  return true;
}
`,
};
