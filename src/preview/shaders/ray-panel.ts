import type { Chunk } from './chunk.ts';
import { ray } from './ray.ts';
import { rayBox } from './ray-box.ts';

/**
 * A panel is met where the line passes the plane z = 0, within the outline and not strictly within an opening. A line in
 * the panel's own plane meets nothing: it has no thickness.
 */
export const rayPanel: Chunk = {
  name: 'ray-panel',
  needs: [ray, rayBox],
  code: /* glsl */ `
bool panelCrossings(Body body, int place, Ray ray, out Crossings found) {
  vec3 p;
  vec3 q;
  toLocal(body, ray, p, q);
  if (abs(q.z) < LEAST_SLOPE) return false;
  float t = -p.z / q.z;
  float x = p.x + t * q.x;
  float y = p.y + t * q.y;
  float hx = body.p;
  float hy = body.q;
  float seam = seam_m(p, body.origin);
  if (abs(x) > hx + seam || abs(y) > hy + seam) return false;

  float topRadius = body.r;
  float beyondX = abs(x) - (hx - topRadius);
  float beyondY = y - (hy - topRadius);
  if (topRadius > 0.0 && beyondX > 0.0 && beyondY > 0.0) {
    float reach = topRadius + seam;
    if (beyondX * beyondX + beyondY * beyondY > reach * reach) return false;
  }

  int openings = openingCountOf(body);
  if (openings > 0) {
    int start = belongingAt(place).openingStart;
    for (int i = start; i < start + openings; i++) {
      vec4 opening = openingAt(i);
      if (x > opening.x + seam && y > opening.y + seam && x < opening.z - seam && y < opening.w - seam) return false;
    }
  }
  found = Crossings(t, NOWHERE, 0, 0);
  return true;
}
`,
};
