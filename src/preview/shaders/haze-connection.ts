import type { Chunk } from './chunk.ts';
import { clearance } from './clearance.ts';
import { connection } from './connection.ts';
import { equiAngular } from './equi-angular.ts';
import { hazeRegion } from './haze-region.ts';
import { henyeyGreenstein } from './henyey-greenstein.ts';
import { lampSight } from './lamp-sight.ts';
import { withinCone } from './lit-cone.ts';
import { transportTables } from './transport-tables.ts';

/** Light of lamps that haze scatters once into a stretch of a ray (airlight); the integral stands in the core's module. */
export const hazeConnection: Chunk = {
  name: 'haze-connection',
  needs: [
    connection,
    transportTables,
    equiAngular,
    hazeRegion,
    henyeyGreenstein,
    lampSight,
    withinCone,
    clearance,
  ],
  code: /* glsl */ `
// How often a distance is drawn from where the lamp is bright, and from where it is lit at all; else from anywhere.
const float BRIGHT_CHANCE = 0.6;
const float LIT_CHANCE = 0.3;

// Steps from one candidate's numbers to the next one's: the four-dimensional sequence of Roberts, the powers of 1/φ₄ with
// φ₄⁵ = φ₄ + 1. Each candidate has even numbers of its own, whatever they are shifted by, which is all that the estimate
// asks; that neighbours lie far apart makes their sum less noisy than independent ones would.
const vec4 NEXT_CANDIDATE = vec4(0.8566748838545029, 0.7338918566271260, 0.6287067210378087, 0.5385972572236101);

// One estimate of the airlight of all lamps over the hazed stretches of a ray, with so many places tried for each lamp;
// its way from the place to the lamp is still to be traced. False when it is nothing. The numbers: the place on the lamp,
// how a distance is drawn, and the distance.
bool connectHaze(vec3 o, vec3 d, HazeStretches stretches, int tries, float choice, vec4 numbers, inout Connection found, out vec3 from, out vec3 to) {
  Haze haze = theHaze();
  float first = firstHazed_m(stretches);
  float last = lastHazed_m(stretches);
  float total = 0.0;
  int chosen = -1;
  float chosenCounts = 0.0;
  int i = 0;
  do {
    LitLamp alight = litLampAt(i);
    int lamp = alight.lamp;
    float counts = lampCounts(lamp);
    if (!(counts > 0.0)) continue;
    Emitter emitter = emitterAt(lamp);
    vec2 bright = vec2(0.0);
    vec2 lit = vec2(0.0);
    float inBright = 0.0;
    float inLit = 0.0;
    int which = 0;
    do {
      LitCone cone = alight.lit;
      if (which == 0) cone = alight.bright;
      vec2 part = vec2(0.0);
      bool meets = cone.cosine <= 1.0 && withinCone(cone.apex, cone.axis, cone.cosine, o, d, last, part);
      part.x = max(first, part.x);
      meets = meets && part.y > part.x;
      if (which == 0) {
        bright = part;
        inBright = meets ? BRIGHT_CHANCE : 0.0;
      } else {
        lit = part;
        inLit = meets ? LIT_CHANCE : 0.0;
      }
    } while (++which < 2);
    // One point of the lamp for all its tries, so that what the stretches look like from there is worked out once.
    vec4 start = fract(numbers + float(i * tries) * NEXT_CANDIDATE);
    LampSight sight;
    choosePoint(emitter, start.x, start.y, sight);
    vec3 away = sight.s - o;
    float foot = dot(away, d);
    EquiAngular seen = equiAngularOf(
      foot,
      length(away - foot * d),
      vec3(inBright, inLit, 1.0 - inBright - inLit),
      vec3(bright.x, lit.x, first),
      vec3(bright.y, lit.y, last)
    );
    int k = 0;
    do {
      vec2 u = fract(start.zw + float(k) * NEXT_CANDIDATE.zw);
      float t = equiAngularPlace(seen, u.x, u.y);
      float pdf = equiAngularDensity(seen, t);
      if (pdf > 0.0 && isHazed(stretches, t)) {
        seePoint(emitter, o + t * d, sight);
        float p = henyeyGreenstein(haze.anisotropy, dot(sight.w, d));
        float passed = exp(-haze.extinction_per_m * hazedUpTo_m(stretches, t));
        float weight = haze.albedo * haze.extinction_per_m * p * sight.normal_lx * passed * counts / (pdf * float(tries));
        if (keeps(weight, total, choice)) {
          chosen = lamp;
          chosenCounts = counts;
          from = o + t * d;
          to = sight.s - clearance_m(sight.d_m) * sight.w;
        }
      }
    } while (++k < tries);
  } while (++i < litLampsAt.x);
  if (chosen < 0) return false;
  found.w = d;
  found.lamp = chosen;
  found.value = total / chosenCounts * lampRgb(chosen);
  found.own = 1.0;
  return true;
}
`,
};
