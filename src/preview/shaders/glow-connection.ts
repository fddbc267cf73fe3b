import type { Chunk } from './chunk.ts';
import { connection } from './connection.ts';
import { lampSight } from './lamp-sight.ts';
import { surfacePoint } from './surface-point.ts';
import { transportTables } from './transport-tables.ts';

/** Directions round the lamps, where haze glows; how they are drawn and why stands in the core's module. */
export const glowConnection: Chunk = {
  name: 'glow-connection',
  needs: [connection, transportTables, lampSight, surfacePoint],
  code: /* glsl */ `
// A direction drawn round one of the lamps, and the densities, per steradian, with which that one and another are drawn.
struct Glow {
  vec3 w;
  float own;
  float other;
};

float glowRise(vec3 w, vec3 toLamp) {
  float across = length(cross(w, toLamp));
  float theta = max(1e-5, atan(across, dot(w, toLamp)));
  return 1.0 / (4.0 * PI * sqrt(PI * theta) * max(1e-5, across * inversesqrt(dot(toLamp, toLamp))));
}

// How much the i-th lamp that is alight counts at x, wherever it points: its beam glows as seen from beside it too. The way to
// it goes into toLamp.
float glowByLamp(int i, vec3 x, out vec3 toLamp) {
  LitLamp alight = litLampAt(i);
  toLamp = emitterAt(alight.lamp).origin - x;
  return lampCounts(alight.lamp) * alight.peak_cd / max(1e-12, dot(toLamp, toLamp));
}

// The densities, per steradian, with which glowAt draws w and another direction.
vec2 glowDensities(vec3 x, vec3 w, vec3 other) {
  float even = 1.0 / float(litLampsAt.x);
  float total = 0.0;
  vec2 rises = vec2(0.0);
  vec2 weighted = vec2(0.0);
  int i = 0;
  do {
    vec3 toLamp;
    float weight = glowByLamp(i, x, toLamp);
    vec2 rise = vec2(glowRise(w, toLamp), glowRise(other, toLamp));
    total += weight;
    rises += rise;
    weighted += weight * rise;
  } while (++i < litLampsAt.x);
  return total > 0.0 ? 0.5 * (weighted / total + even * rises) : even * rises;
}

// The density of one direction.
float glowDensityToward(vec3 x, vec3 w) {
  return glowDensities(x, w, w).x;
}

// Lamps are chosen by how much they count at x, half of the time, and else evenly. Once through all lamps to choose one, once
// more for the densities of the direction that was drawn and of the other. The numbers: which lamp, whether evenly, and the
// direction round it.
Glow glowAt(vec3 x, vec3 other, vec4 numbers) {
  int count = litLampsAt.x;
  float total = 0.0;
  float choice = numbers.x;
  int chosen = min(count - 1, int(choice * float(count)));
  vec3 axis = emitterAt(litLampAt(chosen).lamp).origin - x;
  int i = 0;
  do {
    vec3 toLamp;
    float weight = glowByLamp(i, x, toLamp);
    if (keeps(weight, total, choice) && numbers.y >= 0.5) axis = toLamp;
  } while (++i < count);
  vec3 w = turned(normalize(axis), cos(PI * numbers.z * numbers.z), numbers.w);
  vec2 densities = glowDensities(x, w, other);
  return Glow(w, densities.x, densities.y);
}
`,
};
