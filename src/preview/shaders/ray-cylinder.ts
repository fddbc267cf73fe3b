import { CAP, SIDE } from '../../core/geometry/ray-cylinder.ts';
import type { Chunk } from './chunk.ts';
import { ray } from './ray.ts';
import { rayBox } from './ray-box.ts';
import { rayRound } from './ray-round.ts';

/** A closed cylinder is where the endless tube x² + z² ≤ r² and the slab |y| ≤ h overlap. */
export const rayCylinder: Chunk = {
  name: 'ray-cylinder',
  needs: [ray, rayRound, rayBox],
  code: /* glsl */ `
const int SIDE = ${SIDE};
const int CAP = ${CAP};

bool cylinderCrossings(Body body, Ray ray, out Crossings found) {
  float r = body.p;
  float h = body.q;
  vec3 p;
  vec3 q;
  toLocal(body, ray, p, q);
  float closest = recentre(p, q, ray.dd);
  if (dot(p, p) >= r * r + h * h) return false;

  float enter = -NOWHERE;
  float leave = NOWHERE;
  float a = acrossAxisSquared(q, ray.dd);
  if (a > 0.0) {
    float discriminant = tubeDiscriminant(p, q, a, r);
    if (discriminant <= 0.0) return false;
    float b = dot(p.xz, q.xz);
    float root = sqrt(discriminant);
    enter = (-b - root) / a;
    leave = (-b + root) / a;
  } else if (dot(p.xz, p.xz) > r * r) return false;

  int enterFace = SIDE;
  int leaveFace = SIDE;
  if (abs(q.y) < LEAST_SLOPE) {
    if (abs(p.y) > h) return false;
  } else {
    float reach = q.y > 0.0 ? h : -h;
    float t0 = (-reach - p.y) / q.y;
    float t1 = (reach - p.y) / q.y;
    if (t0 > enter) {
      enter = t0;
      enterFace = CAP;
    }
    if (t1 < leave) {
      leave = t1;
      leaveFace = CAP;
    }
  }
  found = Crossings(closest + enter, closest + leave, enterFace, leaveFace);
  return enter <= leave;
}
`,
};
