import type { Chunk } from './chunk.ts';
import { ray } from './ray.ts';

/**
 * The line is sheared onto one axis and the triangle judged in the plane across it by the signs of its three edge functions
 * (S. Woop, C. Benthin, I. Wald, Watertight ray/triangle intersection, JCGT 2:1, 2013). Compilers may fuse one product of an
 * edge function and not the other, so that two triangles no longer get opposite numbers for the edge they share: what is
 * within rounding of an edge counts as on it, for both.
 */
export const rayTriangle: Chunk = {
  name: 'ray-triangle',
  needs: [ray],
  code: /* glsl */ `
const float ROUNDING = 2.4e-7;

float edgeFunction(vec2 a, vec2 b) {
  float first = a.x * b.y;
  float second = a.y * b.x;
  float difference = first - second;
  return abs(difference) <= ROUNDING * (abs(first) + abs(second)) ? 0.0 : difference;
}

bool triangleCrossings(Body body, Ray ray, out Crossings found) {
  vec3 a = towardMain(ray.main, body.x - ray.o);
  vec3 b = towardMain(ray.main, body.y - ray.o);
  vec3 c = towardMain(ray.main, body.z - ray.o);
  vec2 shear = vec2(ray.shearAcross, ray.shearUp);
  vec2 as = a.yz - shear * a.x;
  vec2 bs = b.yz - shear * b.x;
  vec2 cs = c.yz - shear * c.x;
  float u = edgeFunction(cs, bs);
  float v = edgeFunction(as, cs);
  float w = edgeFunction(bs, as);
  if ((u < 0.0 || v < 0.0 || w < 0.0) && (u > 0.0 || v > 0.0 || w > 0.0)) return false;
  float sum = u + v + w;
  // Seen edge-on, a triangle has edge functions of nothing but rounding: it then has no area to be met.
  vec3 size = abs(a) + abs(b) + abs(c);
  vec2 spread = abs(as) + abs(bs) + abs(cs);
  if (abs(sum) <= ROUNDING * (size.x + size.y + size.z) * (spread.x + spread.y)) return false;
  found = Crossings((u * a.x + v * b.x + w * c.x) / sum * ray.perMain, NOWHERE, 0, 0);
  return true;
}
`,
};
