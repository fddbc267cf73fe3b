import type { Chunk } from './chunk.ts';
import { ray } from './ray.ts';
import { rayArc } from './ray-arc.ts';
import { rayBox } from './ray-box.ts';
import { rayCapsule } from './ray-capsule.ts';
import { rayCylinder } from './ray-cylinder.ts';
import { rayPanel } from './ray-panel.ts';
import { raySphere } from './ray-sphere.ts';
import { rayTriangle } from './ray-triangle.ts';

/** Where a line meets a shape of any kind, and how the surface lies there. */
export const rayShape: Chunk = {
  name: 'ray-shape',
  needs: [ray, rayBox, rayCylinder, raySphere, rayCapsule, rayPanel, rayArc, rayTriangle],
  code: /* glsl */ `
struct Hit {
  // In lengths of the ray's direction.
  float t;
  // The part, its pane or its material, and whose it is.
  int part;
  bool isPane;
  int substance;
  int owner;
  // Unit normal: outward from a closed shape; toward the front of a sheet (panel, arc, triangle).
  vec3 normal;
  // The ray came from the side the normal points to.
  bool front;
};

// Everywhere the endless line of a ray meets the shape at a place; false, and found undefined, where it does not.
bool shapeCrossings(Body body, int place, Ray ray, out Crossings found) {
  switch (kindOf(body)) {
    case TRIANGLE:
      return triangleCrossings(body, ray, found);
    case PANEL:
      return panelCrossings(body, place, ray, found);
    case BOX:
      return boxCrossings(body, ray, found);
    case CYLINDER:
      return cylinderCrossings(body, ray, found);
    case SPHERE:
      return sphereCrossings(body, ray, found);
    case CAPSULE:
      return capsuleCrossings(body, ray, found);
    default:
      return arcCrossings(body, ray, found);
  }
}

// Completes a hit whose t is known, on the given face of the shape at a place, met on the way in or on the way out.
void completeHit(int place, Ray ray, int face, bool entering, inout Hit hit) {
  Belonging belonging = belongingAt(place);
  hit.part = belonging.part;
  hit.isPane = belonging.substance < 0;
  hit.substance = hit.isPane ? -1 - belonging.substance : belonging.substance;
  hit.owner = belonging.owner;

  Body body = bodyAt(place);
  int kind = kindOf(body);
  if (kind == TRIANGLE) hit.normal = body.origin;
  else if (kind == SPHERE) hit.normal = ray.o - body.origin + hit.t * ray.d;
  else {
    vec3 p;
    vec3 q;
    toLocal(body, ray, p, q);
    vec3 at = p + hit.t * q;
    vec3 local = vec3(0.0, 0.0, 1.0);
    if (kind == ARC || (kind == CYLINDER && face != CAP)) local = vec3(at.x, 0.0, at.z);
    else if (kind == CAPSULE) local = vec3(at.x, at.y - clamp(at.y, -body.q, body.q), at.z);
    else if (kind != PANEL) {
      int axis = kind == CYLINDER ? 1 : face;
      float outward = (q[axis] > 0.0) == entering ? -1.0 : 1.0;
      local = vec3(axis == 0 ? outward : 0.0, axis == 1 ? outward : 0.0, axis == 2 ? outward : 0.0);
    }
    hit.normal = local.x * body.x + local.y * body.y + local.z * body.z;
  }
  hit.normal = normalize(hit.normal);
  hit.front = dot(ray.d, hit.normal) < 0.0;
}
`,
};
