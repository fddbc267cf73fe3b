import type { Chunk } from './chunk.ts';

/** Where a path stands between two of its turns, and the roulette that ends it. */
export const pathState: Chunk = {
  name: 'path-state',
  needs: [],
  code: /* glsl */ `
// How the path came by its direction: from the camera, by sharp reflections alone if by any; by a vertex that asked for what
// lies there; by one that did not.
const int REACHED_CAMERA = 0;
const int REACHED_CONNECTED = 1;
const int REACHED_LOOSE = 2;

// Guards, not limits: roulette ends paths long before.
const int MAX_TURNS = 1024;
const int ROULETTE_FROM = 2;
const int LONG = 8;
const float LONG_SURVIVAL = 0.95;

struct PathState {
  vec3 o;
  vec3 d;
  int reached;
  // α of the surface whose sharp reflection a camera's path is in; below 0 where it is in none.
  float mirrorAlpha;
  // Where the vertex stood that chose the direction, and how densely.
  vec3 before;
  float density;
  // What it sends on of what arrives, and what that is held against in roulette.
  vec3 carries;
  float weight;
  // Share of the next stretch's airlight that is left to it, where a vertex has looked for the glow of haze.
  float airShare;
  // On what a camera or a meter sees itself.
  bool firstStretch;
  // A meter's path begins with the meter.
  bool atMeter;
  bool dome;
  // How many things it has met.
  int met;
  bool ended;
};

PathState pathOfCamera(vec3 o, vec3 d) {
  return PathState(o, d, REACHED_CAMERA, -1.0, o, 0.0, vec3(1.0), 1.0, 1.0, true, false, false, 0, false);
}

// Of a receptor at o that points along d.
PathState pathOfMeter(vec3 o, vec3 d, bool dome) {
  return PathState(o, d, REACHED_CONNECTED, -1.0, o, 0.0, vec3(1.0), 1.0, 1.0, true, true, dome, 0, false);
}

float greatest(vec3 v) {
  return max(v.r, max(v.g, v.b));
}

// Russian roulette by a number: 0 where the path ends, else what makes up for those that did.
float survival(int met, float throughput, float weight, float number) {
  if (!(throughput > 0.0)) return 0.0;
  if (met < ROULETTE_FROM) return 1.0;
  float chance = min(met < LONG ? 1.0 : LONG_SURVIVAL, throughput / weight);
  if (chance >= 1.0) return 1.0;
  return number < chance ? 1.0 / chance : 0.0;
}
`,
};
