import type { Chunk } from './chunk.ts';
import { clearance } from './clearance.ts';
import { connection } from './connection.ts';
import { glowConnection } from './glow-connection.ts';
import { hazeConnection } from './haze-connection.ts';
import { henyeyGreenstein } from './henyey-greenstein.ts';
import { mirrorConnection } from './mirror-connection.ts';
import { nearOne } from './near-one.ts';
import { paneConnection } from './pane-connection.ts';
import { rayQuery } from './ray-query.ts';
import { sample } from './sample.ts';
import { seenLamp } from './seen-lamp.ts';
import { surfaceLamps } from './surface-lamps.ts';
import { surfacePoint } from './surface-point.ts';

/**
 * Follows light backwards from a camera or a meter, as the core's path.ts does: which connections are made at a vertex and
 * what the next one may then count stands there. Here it is one loop with one closest-hit and one shadow call, because a
 * driver may copy a function to every place that calls it: what a vertex asks is a list of jobs worked off one by one, and
 * the airlight of a glow connection, which needs a closest hit of its own, is a step of the loop before the path goes on.
 */
export const path: Chunk = {
  name: 'path',
  needs: [
    connection,
    rayQuery,
    seenLamp,
    surfaceLamps,
    mirrorConnection,
    paneConnection,
    hazeConnection,
    glowConnection,
    henyeyGreenstein,
    nearOne,
    sample,
    surfacePoint,
    clearance,
  ],
  code: /* glsl */ `
const int REACHED_CAMERA = 0;
const int REACHED_CONNECTED = 1;
const int REACHED_LOOSE = 2;

const int MEETS_NOTHING = 0;
const int MEETS_HAZE = 1;
const int MEETS_SHEET = 2;
const int MEETS_SURFACE = 3;
const int MEETS_METER = 4;

// Jobs of a step: of the stretch and a place of haze in it, and of what the stretch ends at.
const int JOB_AIRLIGHT = 0;
const int JOB_LAMPS = 4;
// The task of the other jobs: what is left of their number by 4.
const int TASK_MIRROR = 1;
const int TASK_PANE = 2;
const int TASK_GLOW = 3;

// Guards, not limits: roulette ends paths long before.
const int MAX_STEPS = 1024;
const int ROULETTE_FROM = 2;
const int LONG = 8;
const float LONG_SURVIVAL = 0.95;
// Places tried for each lamp along the stretch that a camera or a meter sees itself.
const int FIRST_TRIES = 4;

// Place of the lowest bit that is set, of eight.
int lowestBit(int bits) {
  int place = (bits & 15) == 0 ? 4 : 0;
  place += (bits >> place & 3) == 0 ? 2 : 0;
  return place + ((bits >> place & 1) == 0 ? 1 : 0);
}

float greatest(vec3 v) {
  return max(v.r, max(v.g, v.b));
}

// Russian roulette: 0 where the path ends, else what makes up for those that did.
float survival(int vertex, float throughput, float weight, inout RandomState random) {
  if (!(throughput > 0.0)) return 0.0;
  if (vertex < ROULETTE_FROM) return 1.0;
  float chance = min(vertex < LONG ? 1.0 : LONG_SURVIVAL, throughput / weight);
  if (chance >= 1.0) return 1.0;
  return nextRandom(random) < chance ? 1.0 / chance : 0.0;
}

// Radiance (linear RGB, cd/m²) along the ray; of a meter, what a receptor at o that points along d reads (lx).
vec3 tracePath(vec3 o, vec3 d, bool meter, bool dome, inout RandomState random) {
  Haze haze = theHaze();
  bool glows = haze.extinction_per_m > 0.0 && litLampsAt.x > 0;
  // The tasks that there is something for in this scene.
  int connections = (mirrorPairsAt.x > 0 ? 1 << TASK_MIRROR : 0) | (paneSheetsAt.x > 0 ? 1 << TASK_PANE : 0) |
    (glows ? 1 << TASK_GLOW : 0);
  vec3 sum = vec3(0.0);
  vec3 beta = vec3(1.0);
  float weight = 1.0;
  int reached = meter ? REACHED_CONNECTED : REACHED_CAMERA;
  // α of the surface whose sharp reflection a camera's path is in.
  float mirrorAlpha = -1.0;
  // Where the vertex stood that chose this direction, and how densely.
  vec3 before = o;
  float density = 0.0;
  // Share of the next stretch's airlight that is left to the path, where a vertex has looked for the glow of haze.
  float glowShare = 1.0;
  bool firstStretch = true;
  bool started = !meter;
  bool ended = false;
  int vertex = 0;
  // Glow connections whose airlight is still to be found.
  int waiting = 0;
  vec3 glowFrom[2];
  vec3 glowAlong[2];
  vec3 glowCarries[2];

  for (int turns = 0; turns < MAX_STEPS; turns++) {
    bool glowing = waiting > 0;
    if (!glowing && ended) break;
    bool atMeter = !started && !glowing;
    vec3 from = o;
    vec3 along = d;
    vec3 here = beta;
    float airShare = glowShare;
    bool wasFirst = firstStretch && !glowing;
    if (glowing) {
      waiting--;
      from = glowFrom[waiting];
      along = glowAlong[waiting];
      here = glowCarries[waiting];
      airShare = 1.0;
    } else {
      glowShare = 1.0;
    }

    Hit hit;
    bool solid = false;
    if (!atMeter) solid = nearestHit(from, along, 0.0, FAR_m, hit);
    float D = solid ? hit.t : FAR_m;
    vec3 lampLight = vec3(0.0);
    bool lampSeen = false;
    if (!glowing && reached == REACHED_CAMERA) lampSeen = seesLamp(from, along, mirrorAlpha, D, lampLight);

    int jobs = 0;
    int meets = MEETS_NOTHING;
#if HAS_HAZE
    HazeStretches stretches;
#endif
    vec3 hazePlace = vec3(0.0);
    float chance = 0.0;
#if HAS_HAZE
    if (haze.extinction_per_m > 0.0 && !atMeter) {
      hazeAlong(haze.regionCount, from, along, D, stretches);
      if (glows && stretches.length_m > 0.0) jobs |= 1 << JOB_AIRLIGHT;
      if (!glowing) {
        chance = -expm1(-haze.extinction_per_m * stretches.length_m);
        bool scattered = nextRandom(random) < chance;
        float depth = -log1p(-chance * nextRandom(random));
        // On its first stretch every path asks what light a scattering there would find, weighed by its chance.
        if (chance > 0.0 && (scattered || firstStretch)) {
          hazePlace = from + placeInHaze_m(stretches, depth / haze.extinction_per_m) * along;
          jobs |= connections;
        }
        if (scattered) meets = MEETS_HAZE;
      }
    }
#endif
    if (atMeter) meets = MEETS_METER;

    SurfacePoint point;
    point.p = from;
    point.n = along;
    SurfaceOptics optics;
    bool sharp = false;
    bool throughSharp = false;
    int substance = -1;
    float sheetShare = 1.0;
    if (meets == MEETS_METER) {
      setNormal(point, along);
      float mu = 2.0 * sqrt(nextRandom(random)) - 1.0;
      d = turned(along, mu, nextRandom(random));
      density = (1.0 + mu) / (4.0 * PI);
      float response = receptorResponse(dome, mu);
      ended = response <= 0.0;
      beta = vec3(response / density);
      weight = beta.r;
      jobs |= (1 << JOB_LAMPS) | (connections << JOB_LAMPS);
      started = true;
    } else if (!glowing) {
#if HAS_HAZE
      if (meets == MEETS_HAZE) {
        firstStretch = false;
        float keep = haze.albedo * survival(vertex, greatest(beta) * haze.albedo, weight, random);
        ended = keep == 0.0;
        beta *= keep;
        o = hazePlace;
        float mu = sampleHenyeyGreenstein(haze.anisotropy, nextRandom(random));
        d = turned(along, mu, nextRandom(random));
        density = henyeyGreenstein(haze.anisotropy, mu);
        before = o;
        reached = REACHED_CONNECTED;
      } else
#endif
      if (lampSeen) {
        sum += beta * lampLight;
        ended = true;
      } else if (!solid) {
        if (along.y > 0.0) sum += beta * skyRadiance;
        ended = true;
      } else {
        vec3 p = from + D * along;
        vec3 through = dot(along, hit.normal) > 0.0 ? hit.normal : -hit.normal;
        substance = hit.substance;
        if (hit.isPane) {
          float direct = paneDirectOf(substance);
          float scattered = paneScattered(substance);
          float choice = nextRandom(random);
          o = liftedOff(p, through);
          if (choice >= direct + scattered) {
            ended = true;
#if HAS_SHEETS
          } else if (choice >= direct) {
            meets = MEETS_SHEET;
            PaneLobe lobe = paneLobeOf(substance);
            float cosOut = abs(dot(along, hit.normal));
            sheetShare = 1.0 / scattered;
            if (reached == REACHED_CONNECTED)
              sheetShare *= density / (density + paneConnectionDensity(before, hit.part, distance(p, before), cosOut));
            point.p = p;
            point.n = hit.normal;
            point.o = -along;
            jobs |= 1 << JOB_LAMPS;
            firstStretch = false;
            d = turned(along, sampleLobe(lobe, nextRandom(random)), nextRandom(random));
            float after = dot(d, through);
            // The part of the lobe that would come back out of the pane is lost in it.
            if (after <= 0.0) {
              ended = true;
            } else {
              float kept = scatteredWeight(lobe, after, cosOut);
              float keep = kept * survival(vertex, kept * greatest(beta), weight, random);
              ended = keep == 0.0;
              beta *= keep;
            }
#endif
          }
        } else {
          meets = MEETS_SURFACE;
          firstStretch = false;
          optics = surfaceOptics(substance);
          arriveAt(point, liftedOff(p, -through), along, hit.normal);
          sharp = optics.glossy && optics.alpha < SHARP_MAX_ALPHA;
          jobs |= 1 << JOB_LAMPS;
          if (!sharp || optics.baseLuminance > 0.0) jobs |= connections << JOB_LAMPS;
          o = point.p;
        }
      }
      vertex++;
    }

    LitPoint lit;
    lit.dome = dome;
    if (meets == MEETS_SURFACE) {
      lit.gloss = reached == REACHED_CAMERA ? GLOSS_SHARP : reached == REACHED_CONNECTED ? GLOSS_THROWN : GLOSS_BLURRED;
      lit.before = before;
      lit.density = density;
      lit.part = hit.part;
      float u = nextRandom(random);
      float v = nextRandom(random);
      float w = nextRandom(random);
      SurfaceSample drawn;
      if (sampleSurface(optics, point.o, u, v, w, sharp, drawn)) {
        beta *= drawn.weight;
        beta *= survival(vertex - 1, greatest(beta), weight, random);
        ended = greatest(beta) <= 0.0;
        d = drawn.w.x * point.u + drawn.w.y * point.v + drawn.w.z * point.n;
        density = drawn.pdf;
        before = o;
        throughSharp = sharp && drawn.glossy;
        if (!throughSharp) reached = REACHED_CONNECTED;
        else if (reached == REACHED_CAMERA) mirrorAlpha = optics.alpha;
        else reached = REACHED_LOOSE;
      } else {
        ended = true;
      }
    }
    if (meets == MEETS_SHEET) reached = REACHED_LOOSE;

    // As many turns as the pixel has jobs, not one for each job there is: a software rasteriser goes through all code of a
    // loop whatever the pixels ask for, so that turns, not what is done in them, are what costs.
    while (jobs != 0) {
      int job = lowestBit(jobs);
      jobs &= jobs - 1;
      bool inHaze = job < JOB_LAMPS;
      int task = job & 3;
      vec3 x = inHaze ? hazePlace : point.p;
      vec3 n = inHaze ? vec3(0.0, 1.0, 0.0) : point.n;
      int arrival = inHaze ? ARRIVAL_HAZE : meets == MEETS_METER ? ARRIVAL_METER : ARRIVAL_SURFACE;
      Connection found;
      found.value = vec3(1.0);
      found.own = 1.0;
      found.legs = 0;
      found.probe = false;
      bool there = true;
#if HAS_HAZE
      if (job == JOB_AIRLIGHT) {
        there = connectHaze(from, along, stretches, wasFirst ? FIRST_TRIES : 1, random, found);
      }
#endif
#if HAS_MIRRORS
      if (task == TASK_MIRROR) {
        there = connectMirror(x, n, arrival, random, found);
      }
#endif
#if HAS_HAZE
      if (task == TASK_GLOW) {
        Glow glow = glowAt(x, d, random);
        if (inHaze ? meets == MEETS_HAZE : !throughSharp) glowShare = density / (density + glow.other);
        found.w = glow.w;
        found.own = glow.own;
      }
#endif
#if HAS_SHEETS
      if (task == TASK_PANE) {
        PaneSheet sheet;
        vec3 q;
        there = choosePanePoint(x, n, arrival, random, sheet, q, found);
        lit.kind = AT_PANE;
        lit.at.p = q;
        lit.at.n = sheet.n;
        lit.at.o = -found.w;
        lit.substance = sheet.pane;
      }
#endif
      if (job == JOB_LAMPS) {
        lit.kind = meets == MEETS_METER ? AT_METER : meets == MEETS_SHEET ? AT_PANE : AT_SURFACE;
        lit.at = point;
        lit.substance = substance;
      }
      if (there && (job == JOB_LAMPS || task == TASK_PANE)) {
        LampSight sight;
        vec3 light;
        there = lightOfLamps(lit, random, light, sight);
        found.value *= light;
        vec3 start = lit.at.p;
        if (lit.kind == AT_PANE) start = liftedOff(start, dot(sight.w, lit.at.n) > 0.0 ? lit.at.n : -lit.at.n);
        found.from[found.legs] = start;
        found.to[found.legs] = sight.s - clearance_m(sight.d_m) * sight.w;
        found.legs++;
      }

      // What the place sends on of this light, and the density of the path's own directions.
      vec3 answer = vec3(1.0);
      float others = 0.0;
      if (there && task > 0) {
        if (inHaze) {
          others = henyeyGreenstein(haze.anisotropy, dot(found.w, along));
          answer = vec3(others);
        } else if (meets == MEETS_METER) {
          float mu = dot(found.w, n);
          others = (1.0 + mu) / (4.0 * PI);
          answer = vec3(receptorResponse(dome, mu));
        } else {
          vec3 i = inAxesOf(point, found.w);
          others = lobePdf(optics, i, point.o, false) + (sharp ? 0.0 : lobePdf(optics, i, point.o, true));
          answer = max(0.0, i.z) * evaluateSurface(optics, i, point.o, sharp ? DIFFUSE : ALL);
        }
      }
      float k = 1.0;
      if (job == JOB_AIRLIGHT) k = airShare;
      else if (inHaze) k = haze.albedo * (wasFirst ? chance : 1.0);
      else if (meets == MEETS_SHEET) k = sheetShare;
      vec3 value = here * found.value * answer * (k / (found.own + others));
      there = there && greatest(abs(value)) > 0.0;
#if HAS_HAZE
      if (there && task == TASK_GLOW) {
        glowFrom[waiting] = x;
        glowAlong[waiting] = found.w;
        glowCarries[waiting] = value;
        waiting++;
        there = false;
      }
#endif
      float free = there ? 1.0 : 0.0;
      for (int leg = 0; leg < found.legs && free > 0.0; leg++) {
        vec3 way = found.to[leg] - found.from[leg];
        float reach = length(way);
        float through = transmittance(found.from[leg], way / reach, 0.0, reach);
        free *= found.probe && leg == 0 ? (through == 0.0 ? 1.0 : 0.0) : through;
      }
      if (there) sum += free * value;
    }
  }
  return sum;
}
`,
};
