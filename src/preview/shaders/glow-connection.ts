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

// What the i-th lamp that is alight would give at x. Adds its rise toward w, and the same times that.
float glowByLamp(int i, vec3 x, vec3 w, inout float rises, inout float weighted) {
  int lamp = litLampAt(i).lamp;
  Emitter emitter = emitterAt(lamp);
  vec3 d = x - emitter.origin;
  float d2 = max(1e-12, dot(d, d));
  float weight = lampCounts(lamp) * emitted_cd(emitter, d / sqrt(d2)) / d2;
  float rise = glowRise(w, -d);
  rises += rise;
  weighted += weight * rise;
  return weight;
}

// The density, per steradian, with which glowAt draws w.
float glowDensityToward(vec3 x, vec3 w) {
  float even = 1.0 / float(litLampsAt.x);
  float total = 0.0;
  float rises = 0.0;
  float weighted = 0.0;
  int i = 0;
  do {
    float weight = glowByLamp(i, x, w, rises, weighted);
    total += weight;
  } while (++i < litLampsAt.x);
  return total > 0.0 ? 0.5 * (weighted / total + even * rises) : even * rises;
}

// Lamps are chosen by what they would give at x, half of the time, and else evenly. Once through all lamps to choose one,
// to know their sum and the density of the other direction, once more for the density of the one that was drawn. The numbers:
// which lamp, whether evenly, and the direction round it.
Glow glowAt(vec3 x, vec3 other, vec4 numbers) {
  Glow glow = Glow(vec3(0.0, 1.0, 0.0), 0.0, 0.0);
  int count = litLampsAt.x;
  float even = 1.0 / float(count);
  float total = 0.0;
  float choice = numbers.x;
  int chosen = min(count - 1, int(choice * float(count)));
  int byShare = -1;
  vec3 w = other;
  int pass = 0;
  do {
    // Rises toward the lamps, and the same times their weights, summed.
    float rises = 0.0;
    float weighted = 0.0;
    int i = 0;
    do {
      float weight = glowByLamp(i, x, w, rises, weighted);
      if (pass == 0 && keeps(weight, total, choice)) byShare = i;
    } while (++i < count);
    float density = total > 0.0 ? 0.5 * (weighted / total + even * rises) : even * rises;
    if (pass == 0) glow.other = density;
    else glow.own = density;
    if (numbers.y >= 0.5 && byShare >= 0) chosen = byShare;
    vec3 axis = normalize(emitterAt(litLampAt(chosen).lamp).origin - x);
    w = turned(axis, cos(PI * numbers.z * numbers.z), numbers.w);
    if (pass == 0) glow.w = w;
  } while (++pass < 2);
  return glow;
}
`,
};
