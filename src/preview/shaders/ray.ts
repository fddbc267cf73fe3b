import type { Chunk } from './chunk.ts';
import { packedGeometry } from './packed-geometry.ts';

/** The line o + t·d that the shape tests read, t counted in lengths of d (which need not be 1). */
export const ray: Chunk = {
  name: 'ray',
  needs: [packedGeometry],
  code: /* glsl */ `
struct Ray {
  vec3 o;
  vec3 d;
  float dd;
  // The axis of d's largest component, and the shear that turns d into that axis.
  int main;
  float shearAcross;
  float shearUp;
  float perMain;
};

// Where a line meets a shape: up to two places, the first in t0; NOWHERE where there is none. GLSL does not promise to
// know NaN, so that nothing here makes one.
struct Crossings {
  float t0;
  float t1;
  // Which of a shape's surfaces is met: the axis of a box's face; 1 on a cylinder's cap, 0 on its side.
  int face0;
  int face1;
};

const float NOWHERE = 3e38;
// Farther than any tMax, nearer than NOWHERE.
const float ENDLESS = 1e38;

// (main, across, up) components.
vec3 towardMain(int main, vec3 v) {
  return main == 0 ? v : main == 1 ? v.yzx : v.zxy;
}

// False where the direction is zero, that is where there is no line.
bool aimRay(vec3 o, vec3 d, out Ray ray) {
  vec3 size = abs(d);
  ray.o = o;
  ray.d = d;
  ray.dd = dot(d, d);
  ray.main = size.x >= size.y && size.x >= size.z ? 0 : size.y >= size.z ? 1 : 2;
  vec3 along = towardMain(ray.main, d);
  ray.shearAcross = along.y / along.x;
  ray.shearUp = along.z / along.x;
  ray.perMain = 1.0 / along.x;
  return ray.dd > 0.0;
}

// The same line in a shape's own frame.
void toLocal(Body body, Ray ray, out vec3 p, out vec3 q) {
  vec3 from = ray.o - body.origin;
  p = vec3(dot(body.x, from), dot(body.y, from), dot(body.z, from));
  q = vec3(dot(body.x, ray.d), dot(body.y, ray.d), dot(body.z, ray.d));
}

// How far a sheet reaches past its edges, so that no ray slips between two that share one: a few times what single
// precision leaves open where the line comes from and where the sheet stands.
float seam_m(vec3 p, vec3 origin) {
  vec3 size = max(abs(p), abs(origin));
  return 1e-7 + 4e-7 * max(size.x, max(size.y, size.z));
}
`,
};
