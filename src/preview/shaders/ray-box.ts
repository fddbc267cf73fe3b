import type { Chunk } from './chunk.ts';
import { ray } from './ray.ts';

/** A box is where three slabs |p_i + t·q_i| ≤ h_i overlap (Kay & Kajiya 1986). */
export const rayBox: Chunk = {
  name: 'ray-box',
  needs: [ray],
  code: /* glsl */ `
// Smaller components of a local direction are rounding: their reciprocals would overflow.
const float LEAST_SLOPE = 1e-20;

bool boxCrossings(Body body, Ray ray, out Crossings found) {
  vec3 p;
  vec3 q;
  toLocal(body, ray, p, q);
  vec3 h = vec3(body.p, body.q, body.r);
  float enter = -NOWHERE;
  float leave = NOWHERE;
  int enterAxis = 0;
  int leaveAxis = 0;
  for (int axis = 0; axis < 3; axis++) {
    if (abs(q[axis]) < LEAST_SLOPE) {
      if (abs(p[axis]) > h[axis]) return false;
      continue;
    }
    float reach = q[axis] > 0.0 ? h[axis] : -h[axis];
    float t0 = (-reach - p[axis]) / q[axis];
    float t1 = (reach - p[axis]) / q[axis];
    if (t0 > enter) {
      enter = t0;
      enterAxis = axis;
    }
    if (t1 < leave) {
      leave = t1;
      leaveAxis = axis;
    }
  }
  found = Crossings(enter, leave, enterAxis, leaveAxis);
  return enter <= leave;
}
`,
};
