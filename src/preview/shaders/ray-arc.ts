import type { Chunk } from './chunk.ts';
import { ray } from './ray.ts';
import { rayRound } from './ray-round.ts';

/**
 * An arc is the part of the tube x² + z² = r² with |y| ≤ h and x ≥ r·cos(half its span): an open sheet that a line may pass
 * twice, neither time or once.
 */
export const rayArc: Chunk = {
  name: 'ray-arc',
  needs: [ray, rayRound],
  code: /* glsl */ `
bool arcCrossings(Body body, Ray ray, out Crossings found) {
  float r = body.p;
  vec3 p;
  vec3 q;
  toLocal(body, ray, p, q);
  float seam = seam_m(p, body.origin);
  float h = body.q + seam;
  float closest = recentre(p, q, ray.dd);
  if (dot(p, p) >= r * r + h * h) return false;
  float a = acrossAxisSquared(q, ray.dd);
  if (a == 0.0) return false;
  float discriminant = tubeDiscriminant(p, q, a, r);
  if (discriminant <= 0.0) return false;

  float b = dot(p.xz, q.xz);
  float root = sqrt(discriminant);
  // Where the sheet ends across the tube's axis, x falls short of its edge by as much as the edge is passed.
  float leastX = r * body.r - seam * sqrt(max(0.0, 1.0 - body.r * body.r));
  float enter = (-b - root) / a;
  float leave = (-b + root) / a;
  bool entersSheet = abs(p.y + enter * q.y) <= h && p.x + enter * q.x >= leastX;
  bool leavesSheet = abs(p.y + leave * q.y) <= h && p.x + leave * q.x >= leastX;
  found = Crossings(
    closest + (entersSheet ? enter : leave),
    entersSheet && leavesSheet ? closest + leave : NOWHERE,
    0,
    0
  );
  return entersSheet || leavesSheet;
}
`,
};
