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

// One estimate of the airlight of all lamps over the hazed stretches of a ray, with so many places tried for each lamp;
// its shadow ray is still to be traced. False when it is nothing.
bool connectHaze(vec3 o, vec3 d, HazeStretches stretches, int tries, inout RandomState random, inout Connection found) {
  Haze haze = theHaze();
  float first = firstHazed_m(stretches);
  float last = lastHazed_m(stretches);
  float total = 0.0;
  float choice = nextRandom(random);
  int chosen = -1;
  float chosenT = 0.0;
  LampSight chosenSight;
  int count = litLampsAt.x * tries;
  vec2 bright = vec2(0.0);
  vec2 lit = vec2(0.0);
  float inBright = 0.0;
  float inLit = 0.0;
  int lamp = -1;
  Emitter emitter;
  for (int k = 0; k < count; k++) {
    int i = k / tries;
    if (k == i * tries) {
      LitLamp alight = litLampAt(i);
      lamp = alight.lamp;
      emitter = emitterAt(lamp);
      for (int which = 0; which < 2; which++) {
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
      }
    }
    LampSight sight;
    float u = nextRandom(random);
    float v = nextRandom(random);
    float way = nextRandom(random);
    float along = nextRandom(random);
    choosePoint(emitter, u, v, sight);
    vec3 away = sight.s - o;
    float foot = dot(away, d);
    float offset = length(away - foot * d);
    vec2 from = way < inBright ? bright : way < inBright + inLit ? lit : vec2(first, last);
    float t = sampleEquiAngular(foot, offset, from.x, from.y, along).t;
    float pdf = (1.0 - inBright - inLit) * equiAngularPdf(foot, offset, first, last, t);
    if (inBright > 0.0) pdf += inBright * equiAngularPdf(foot, offset, bright.x, bright.y, t);
    if (inLit > 0.0) pdf += inLit * equiAngularPdf(foot, offset, lit.x, lit.y, t);
    if (!isHazed(stretches, t) || !(pdf > 0.0)) continue;
    seePoint(emitter, o + t * d, sight);
    float p = henyeyGreenstein(haze.anisotropy, dot(sight.w, d));
    float passed = exp(-haze.extinction_per_m * hazedUpTo_m(stretches, t));
    float weight = haze.albedo * haze.extinction_per_m * p * sight.normal_lx * passed / (pdf * float(tries));
    if (keeps(weight, total, choice)) {
      chosen = lamp;
      chosenT = t;
      chosenSight = sight;
    }
  }
  if (chosen < 0) return false;
  found.w = d;
  found.value = total * lampRgb(chosen);
  found.own = 1.0;
  found.probe = false;
  found.legs = 1;
  found.from[0] = o + chosenT * d;
  found.to[0] = chosenSight.s - clearance_m(chosenSight.d_m) * chosenSight.w;
  return true;
}
`,
};
