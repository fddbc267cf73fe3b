import type { Chunk } from './chunk.ts';
import { circle } from './circle.ts';

/** A point of a surface that a path has reached, with its own axes. */
export const surfacePoint: Chunk = {
  name: 'surface-point',
  needs: [circle],
  code: /* glsl */ `
struct SurfacePoint {
  vec3 p;
  // Normal on the side of arrival, and two axes across it.
  vec3 n;
  vec3 u;
  vec3 v;
  // Direction back along the path, in the point's own axes; its z is above 0.
  vec3 o;
};

const float LEAST_ARRIVAL_COSINE = 1e-6;

// Two axes across a normal without a branch on its direction (Duff et al. 2017).
void setNormal(inout SurfacePoint point, vec3 n) {
  float side = n.z >= 0.0 ? 1.0 : -1.0;
  float a = -1.0 / (side + n.z);
  float b = n.x * n.y * a;
  point.n = n;
  point.u = vec3(1.0 + side * n.x * n.x * a, side * b, -side * n.x);
  point.v = vec3(b, side + n.y * n.y * a, -n.y);
}

void arriveAt(inout SurfacePoint point, vec3 p, vec3 d, vec3 n) {
  point.p = p;
  setNormal(point, dot(d, n) > 0.0 ? -n : n);
  point.o = vec3(-dot(d, point.u), -dot(d, point.v), max(LEAST_ARRIVAL_COSINE, -dot(d, point.n)));
}

vec3 inAxesOf(SurfacePoint point, vec3 w) {
  return vec3(dot(w, point.u), dot(w, point.v), dot(w, point.n));
}

// A unit direction turned by the angle of cosine mu, at the part u of the turn round it.
vec3 turned(vec3 d, float mu, float u) {
  SurfacePoint around;
  setNormal(around, d);
  float s = sqrt(max(0.0, 1.0 - mu * mu));
  vec2 turn = s * unitCircle(u);
  return turn.x * around.u + turn.y * around.v + mu * d;
}
`,
};
