import type { Chunk } from './chunk.ts';
import { everyFeature } from './features.ts';

/**
 * The parts of a ray that lie in haze. The core keeps them in order; here they are kept as they come, in at most
 * MAX_STRETCHES places, because what is asked of them needs no order and no array is then indexed but by a loop's own counter.
 * A ray that passes through more separate stretches than that loses those found last: it sees too little haze, never too much.
 */
export const hazeRegion: Chunk = {
  name: 'haze-region',
  needs: [everyFeature],
  code: /* glsl */ `
// A box that haze fills: its middle and axes, and half its size along them.
struct HazeRegion {
  vec3 origin;
  vec3 x;
  vec3 y;
  vec3 z;
  vec3 halfSize;
};

// Defined where the light model is read.
HazeRegion hazeRegionAt(int i);

// The part of 0..D of a ray in one region, from and to; empty where to ≤ from.
vec2 hazeWithin(HazeRegion region, vec3 o, vec3 d, float D) {
  vec3 q = o - region.origin;
  vec3 p = vec3(dot(q, region.x), dot(q, region.y), dot(q, region.z));
  vec3 v = vec3(dot(d, region.x), dot(d, region.y), dot(d, region.z));
  vec2 within = vec2(0.0, D);
  for (int axis = 0; axis < 3; axis++) {
    if (abs(v[axis]) < 1e-20) {
      if (abs(p[axis]) > region.halfSize[axis]) within.y = within.x;
      continue;
    }
    float reach = v[axis] > 0.0 ? region.halfSize[axis] : -region.halfSize[axis];
    within = vec2(max(within.x, (-reach - p[axis]) / v[axis]), min(within.y, (reach - p[axis]) / v[axis]));
  }
  return within;
}

#if HAS_HAZE_BOXES
const int MAX_STRETCHES = 8;
// Where a place holds no stretch, it begins and ends here.
const float NO_STRETCH = 1e30;

struct HazeStretches {
  // From and to, disjoint, in any order.
  vec2 ends[MAX_STRETCHES];
  // How many places have ever been taken.
  int used;
  float length_m;
};

// Adds a stretch, joined with those that it touches.
void includeStretch(inout HazeStretches found, vec2 stretch) {
  bool taken = false;
  // The first place that is free once those joined have left theirs.
  int place = MAX_STRETCHES;
  for (int i = 0; i < MAX_STRETCHES; i++) {
    if (i >= found.used) {
      if (place == MAX_STRETCHES) place = i;
      break;
    }
    vec2 ends = found.ends[i];
    bool touches = ends.y >= stretch.x && ends.x <= stretch.y;
    if (touches) {
      stretch = vec2(min(stretch.x, ends.x), max(stretch.y, ends.y));
      found.ends[i] = vec2(NO_STRETCH);
    }
    if (place == MAX_STRETCHES && (touches || ends.x == NO_STRETCH)) place = i;
  }
  for (int i = 0; i < MAX_STRETCHES; i++) if (i == place) found.ends[i] = stretch;
  found.used = max(found.used, min(place + 1, MAX_STRETCHES));
}

// Finds which parts of 0..D of a ray with a unit direction lie in any of the regions; regions that overlap count once.
void hazeAlong(int regionCount, vec3 o, vec3 d, float D, out HazeStretches found) {
  for (int i = 0; i < MAX_STRETCHES; i++) found.ends[i] = vec2(NO_STRETCH);
  found.used = 0;
  for (int i = 0; i < regionCount; i++) {
    vec2 within = hazeWithin(hazeRegionAt(i), o, d, D);
    if (within.y > within.x) includeStretch(found, within);
  }
  found.length_m = 0.0;
  for (int i = 0; i < MAX_STRETCHES; i++) {
    if (i >= found.used) break;
    found.length_m += found.ends[i].y - found.ends[i].x;
  }
}

// Where haze begins along the ray.
float firstHazed_m(HazeStretches stretches) {
  float first = NO_STRETCH;
  for (int i = 0; i < MAX_STRETCHES; i++) {
    if (i >= stretches.used) break;
    first = min(first, stretches.ends[i].x);
  }
  return first;
}

// Where it ends; 0 where there is none.
float lastHazed_m(HazeStretches stretches) {
  float last = 0.0;
  for (int i = 0; i < MAX_STRETCHES; i++) {
    if (i >= stretches.used) break;
    if (stretches.ends[i].y < NO_STRETCH) last = max(last, stretches.ends[i].y);
  }
  return last;
}

// How much of 0..t lies in the stretches.
float hazedUpTo_m(HazeStretches stretches, float t) {
  float sum = 0.0;
  for (int i = 0; i < MAX_STRETCHES; i++) {
    if (i >= stretches.used) break;
    vec2 ends = stretches.ends[i];
    if (t > ends.x) sum += min(t, ends.y) - ends.x;
  }
  return sum;
}

// Where along the ray length metres of haze have been passed: the nearest place that any stretch offers.
float placeInHaze_m(HazeStretches stretches, float passed_m) {
  float nearest = lastHazed_m(stretches);
  for (int i = 0; i < MAX_STRETCHES; i++) {
    if (i >= stretches.used) break;
    vec2 ends = stretches.ends[i];
    if (ends.x == NO_STRETCH) continue;
    float at = ends.x + passed_m - hazedUpTo_m(stretches, ends.x);
    if (at <= ends.y) nearest = min(nearest, at);
  }
  return nearest;
}

// Whether a place along the ray lies in one of the stretches.
bool isHazed(HazeStretches stretches, float t) {
  bool hazed = false;
  for (int i = 0; i < MAX_STRETCHES; i++) {
    if (i >= stretches.used) break;
    vec2 ends = stretches.ends[i];
    hazed = hazed || (t >= ends.x && t <= ends.y);
  }
  return hazed;
}
#else
// Haze is everywhere: one region that holds all there is, and one stretch of a ray in it.
struct HazeStretches {
  vec2 ends;
  float length_m;
};

void hazeAlong(int regionCount, vec3 o, vec3 d, float D, out HazeStretches found) {
  vec2 within = hazeWithin(hazeRegionAt(0), o, d, D);
  found.length_m = max(0.0, within.y - within.x);
  found.ends = vec2(within.x, within.x + found.length_m);
}

float firstHazed_m(HazeStretches stretches) {
  return stretches.ends.x;
}

float lastHazed_m(HazeStretches stretches) {
  return stretches.ends.y;
}

float hazedUpTo_m(HazeStretches stretches, float t) {
  return clamp(t - stretches.ends.x, 0.0, stretches.length_m);
}

float placeInHaze_m(HazeStretches stretches, float passed_m) {
  return min(stretches.ends.x + passed_m, stretches.ends.y);
}

bool isHazed(HazeStretches stretches, float t) {
  return t >= stretches.ends.x && t <= stretches.ends.y;
}
#endif
`,
};
