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
  float theta = max(1e-5, atan(length(cross(w, toLamp)), dot(w, toLamp)));
  return 1.0 / (4.0 * PI * sqrt(PI * theta) * max(1e-5, sin(theta)));
}

// Lamps are chosen by what they would give at x, half of the time, and else evenly. Once through all lamps to choose one
// and know their sum, once more for the densities.
Glow glowAt(vec3 x, vec3 other, inout RandomState random) {
  Glow glow = Glow(vec3(0.0, 1.0, 0.0), 0.0, 0.0);
  int count = litLampsAt.x;
  float total = 0.0;
  float choice = nextRandom(random);
  bool evenly = nextRandom(random) < 0.5;
  float u = nextRandom(random);
  float v = nextRandom(random);
  int chosen = min(count - 1, int(choice * float(count)));
  int byShare = -1;
  for (int i = 0; i < 2 * count; i++) {
    if (i == count) {
      if (!evenly && byShare >= 0) chosen = byShare;
      vec3 axis = normalize(emitterAt(litLampAt(chosen).lamp).origin - x);
      glow.w = turned(axis, cos(PI * u * u), v);
    }
    bool first = i < count;
    Emitter emitter = emitterAt(litLampAt(first ? i : i - count).lamp);
    vec3 d = x - emitter.origin;
    float d2 = max(1e-12, dot(d, d));
    float weight = emitted_cd(emitter, d / sqrt(d2)) / d2;
    if (first) {
      if (keeps(weight, total, choice)) byShare = i;
    } else {
      float even = 1.0 / float(count);
      float share = total > 0.0 ? 0.5 * (weight / total + even) : even;
      glow.own += share * glowRise(glow.w, -d);
      glow.other += share * glowRise(other, -d);
    }
  }
  return glow;
}
`,
};
