import type { Chunk } from './chunk.ts';
import { packedPanes } from './packed-panes.ts';
import { rayShape } from './ray-shape.ts';

/**
 * The two questions asked of a scene. A ray is o + t·d for tMin ≤ t ≤ tMax, both ends included, tMax at most ENDLESS; d need
 * not be a unit vector. Both walk the threaded hierarchy without a stack. Exits of the box test are pushed out by what
 * rounding may have taken (T. Ize, Robust BVH ray traversal, JCGT 2:2, 2013), so that a box never hides a hit.
 */
export const rayQuery: Chunk = {
  name: 'ray-query',
  needs: [rayShape, packedPanes],
  code: /* glsl */ `
// Of a reciprocal of no slope: huge, but times any distance within single precision.
const float STEEPEST = 1e30;
const float BOX_ROUNDING = 1e-6;
// Surfaces this near one another along the ray coincide, as a part of the way and of the coordinates: single precision
// cannot tell them apart, so the one listed first counts, and no speckle of both is seen.
const float COINCIDENT = 4e-7;

float reciprocal(float slope) {
  if (abs(slope) > 1.0 / STEEPEST) return 1.0 / slope;
  return slope < 0.0 ? -STEEPEST : STEEPEST;
}

bool meetsBox(Node node, vec3 o, vec3 per, float tMin, float tMax) {
  vec3 one = (node.low - o) * per;
  vec3 other = (node.high - o) * per;
  vec3 enter = min(one, other);
  vec3 leave = max(one, other);
  float from = max(max(enter.x, enter.y), max(enter.z, tMin));
  float to = min(min(leave.x, leave.y), leave.z);
  return from - BOX_ROUNDING * abs(from) <= min(to + BOX_ROUNDING * abs(to), tMax);
}

// Walks on from a leaf whose shapes are all looked at to the first of those of the next leaf that the ray may meet, or to the
// end of the hierarchy. A loop of its own, because boxes are many and quickly told, and shapes few and slowly: so neighbours
// wait for one another at the shapes only.
void toNextLeaf(vec3 o, vec3 per, float tMin, float tMax, int nodes, inout int at, inout int place, inout int end) {
  do {
    if (place >= end && at < nodes) {
      Node node = nodeAt(at);
      bool meets = meetsBox(node, o, per, tMin, tMax);
      place = firstShapeOf(node);
      end = meets ? place + shapeCountOf(node) : place;
      at = meets ? at + 1 : node.skip;
    }
  } while (place >= end && at < nodes);
}

// The first surface a ray meets, in hit; false, and hit as it was, where it meets none.
bool nearestHit(vec3 o, vec3 d, float tMin, float tMax, inout Hit hit) {
  Ray ray;
  if (!aimRay(o, d, ray)) return false;
  vec3 per = vec3(reciprocal(d.x), reciprocal(d.y), reciprocal(d.z));
  vec3 size = abs(o);
  float reach = max(size.x, max(size.y, size.z)) * inversesqrt(ray.dd);
  int nodes = sectionCount[NODES];
  float best = tMax;
  int bestPlace = -1;
  int bestPart = -1;
  int bestFace = 0;
  bool entering = true;
  int at = 0;
  int place = 0;
  int end = 0;
  if (nodes > 0) do {
    toNextLeaf(o, per, tMin, best, nodes, at, place, end);
    if (place < end) {
      Body body = bodyAt(place);
      Crossings found;
      if (shapeCrossings(body, place, ray, found)) {
        bool enters = found.t0 >= tMin;
        float t = enters ? found.t0 : found.t1;
        float slack = bestPlace < 0 ? 0.0 : COINCIDENT * (abs(best) + reach);
        if (t >= tMin && t <= best + slack) {
          int part = belongingAt(place).part;
          if (bestPlace < 0 || t < best - slack || part <= bestPart) {
            best = min(best, t);
            bestPlace = place;
            bestPart = part;
            bestFace = enters ? found.face0 : found.face1;
            entering = enters;
          }
        }
      }
      place++;
    }
  } while (place < end || at < nodes);
  if (bestPlace < 0) return false;
  hit.t = best;
  completeHit(bestPlace, ray, bestFace, entering, hit);
  return true;
}

// What share of light passes straight along a ray: 0 behind anything opaque, otherwise the product of what each pane that
// it crosses lets through straight, on the way in and on the way out; where panes block too, 0 behind any of them.
float transmittance(vec3 o, vec3 d, float tMin, float tMax, bool panesBlock) {
  Ray ray;
  if (!aimRay(o, d, ray)) return 1.0;
  vec3 per = vec3(reciprocal(d.x), reciprocal(d.y), reciprocal(d.z));
  int nodes = sectionCount[NODES];
  float passed = 1.0;
  int at = 0;
  int place = 0;
  int end = 0;
  if (nodes > 0) do {
    toNextLeaf(o, per, tMin, tMax, nodes, at, place, end);
    if (place < end) {
      Body body = bodyAt(place);
      Crossings found;
      if (shapeCrossings(body, place, ray, found)) {
        bool first = found.t0 >= tMin && found.t0 <= tMax;
        bool second = found.t1 >= tMin && found.t1 <= tMax;
        if (first || second) {
          int substance = belongingAt(place).substance;
          float direct = substance >= 0 || panesBlock ? 0.0 : paneDirectOf(-1 - substance);
          passed *= (first ? direct : 1.0) * (second ? direct : 1.0);
        }
      }
      place++;
    }
  } while (passed > 0.0 && (place < end || at < nodes));
  return passed;
}
`,
};
