import type { Chunk } from './chunk.ts';
import { ray } from './ray.ts';
import { rayRound } from './ray-round.ts';

/**
 * A capsule lies inside the endless tube of its radius. Where the line enters (leaves) the tube between the ends of the
 * straight part, it enters (leaves) the capsule; beyond an end, it does so on the ball at that end or not at all.
 */
export const rayCapsule: Chunk = {
  name: 'ray-capsule',
  needs: [ray, rayRound],
  code: /* glsl */ `
// Where the recentred local line enters (sense −1) or leaves (+1) the ball of radius r about (0, y, 0), in t; false where
// it misses. p is the closest approach to the origin, p·q = 0: only the ball's own offset counts.
bool ballCrossing(vec3 p, vec3 q, float y, float r, float dd, float sense, out float crossing) {
  float t = y * q.y / dd;
  vec3 miss = p + t * q - vec3(0.0, y, 0.0);
  float h2 = r * r - dot(miss, miss);
  crossing = t + sense * sqrt(max(0.0, h2) / dd);
  return h2 >= 0.0;
}

bool capsuleCrossings(Body body, Ray ray, out Crossings found) {
  float r = body.p;
  float h = body.q;
  vec3 p;
  vec3 q;
  toLocal(body, ray, p, q);
  float closest = recentre(p, q, ray.dd);
  if (dot(p, p) >= (r + h) * (r + h)) return false;

  float a = acrossAxisSquared(q, ray.dd);
  float enter = 0.0;
  float leave = 0.0;
  // Along the axis, the tube is entered below everything and left above it (seen along the line).
  float enterHeight = q.y > 0.0 ? -NOWHERE : NOWHERE;
  float leaveHeight = -enterHeight;
  if (a > 0.0) {
    float discriminant = tubeDiscriminant(p, q, a, r);
    if (discriminant <= 0.0) return false;
    float b = dot(p.xz, q.xz);
    float root = sqrt(discriminant);
    enter = (-b - root) / a;
    leave = (-b + root) / a;
    enterHeight = p.y + enter * q.y;
    leaveHeight = p.y + leave * q.y;
  }
  if (abs(enterHeight) > h && !ballCrossing(p, q, enterHeight > 0.0 ? h : -h, r, ray.dd, -1.0, enter)) return false;
  if (abs(leaveHeight) > h && !ballCrossing(p, q, leaveHeight > 0.0 ? h : -h, r, ray.dd, 1.0, leave)) return false;
  found = Crossings(closest + enter, closest + leave, 0, 0);
  return enter <= leave;
}
`,
};
