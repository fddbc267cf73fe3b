import type { Chunk } from './chunk.ts';
import { clearance } from './clearance.ts';
import { connection } from './connection.ts';
import { everyFeature } from './features.ts';
import { henyeyGreenstein } from './henyey-greenstein.ts';
import { everyLightKind } from './light-kinds.ts';
import { nearOne } from './near-one.ts';
import { paneConnection } from './pane-connection.ts';
import { rayQuery } from './ray-query.ts';
import { sample } from './sample.ts';
import { seenLamp } from './seen-lamp.ts';
import { surfacePoint } from './surface-point.ts';
import { vertexLight } from './vertex-light.ts';
import { vertexPart } from './vertex-part.ts';

/**
 * Follows light backwards from a camera or a meter, as the core's path.ts does: which connections are made at a vertex and
 * what the next one may then count stands there. But a lamp's face ends no path here: it outshines what it hides, by far, and
 * when that shows through, no lamp's light hangs on where another one stands, which is what light kept by lamp needs. Here it is one loop with one closest-hit and one shadow call, because a
 * driver may copy a function to every place that calls it. Loops that surely run once are tested at their end: pixels drawn
 * together, and software always, would go through their code once more only to find that it is over.
 */
export const path: Chunk = {
  name: 'path',
  needs: [
    everyFeature,
    everyLightKind,
    connection,
    rayQuery,
    seenLamp,
    vertexLight,
    vertexPart,
    paneConnection,
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

// Guards, not limits: roulette ends paths long before.
const int MAX_STEPS = 1024;
const int ROULETTE_FROM = 2;
const int LONG = 8;
const float LONG_SURVIVAL = 0.95;
// Places tried for each lamp along the stretch that a camera or a meter sees itself.
const int FIRST_TRIES = 4;
// How often haze asks along that stretch, where what lies beyond it would ask too.
const float HAZE_TURNS = 0.25;

// How many paths one that goes on beyond the first stretch stands for; 0 where this one ends there.
float standsForDeeper = 1.0;

float greatest(vec3 v) {
  return max(v.r, max(v.g, v.b));
}

// Russian roulette by a number: 0 where the path ends, else what makes up for those that did.
float survival(int vertex, float throughput, float weight, float number) {
  if (!(throughput > 0.0)) return 0.0;
  if (vertex < ROULETTE_FROM) return 1.0;
  float chance = min(vertex < LONG ? 1.0 : LONG_SURVIVAL, throughput / weight);
  if (chance >= 1.0) return 1.0;
  return number < chance ? 1.0 / chance : 0.0;
}

// Keeps the radiance (linear RGB, cd/m²) along the ray; of a meter, what a receptor at o that points along d reads (lx).
void tracePath(vec3 o, vec3 d, bool meter, bool dome, inout RandomState random) {
  Haze haze = theHaze();
  bool shines = litLampsAt.x > 0;
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
  int turns = 0;

  do {
    Vertex at;
    at.from = o;
    at.along = d;
    at.carries = beta;
    at.airShare = glowShare;
    at.tries = firstStretch ? FIRST_TRIES : 1;
    glowShare = 1.0;
    // Which lobe or light and whether haze scatters and where; the direction; roulette.
    vec4 chances = nextFour(random);
    vec4 turnings = nextFour(random);

    Hit hit;
    bool solid = false;
    if (started) solid = nearestHit(o, d, 0.0, FAR_m, hit);
    float D = solid ? hit.t : FAR_m;
#if ASKS_STRAIGHT
    vec3 lampLight = vec3(0.0);
    bool lampSeen = false;
    int lamp = -1;
    float toLamp = D;
    if (reached == REACHED_CAMERA && shines) lampSeen = seesLamp(o, d, mirrorAlpha, toLamp, lamp, lampLight);
#endif

    int meets = started ? MEETS_NOTHING : MEETS_METER;
    HazeStretches stretches;
    stretches.length_m = 0.0;
    vec3 hazePlace = vec3(0.0);
    float chance = 0.0;
#if HAS_HAZE
    if (haze.extinction_per_m > 0.0 && started) {
      hazeAlong(haze.regionCount, o, d, D, stretches);
      chance = -expm1(-haze.extinction_per_m * stretches.length_m);
      float depth = -log1p(-chance * chances.y);
      float toHaze = placeInHaze_m(stretches, depth / haze.extinction_per_m);
      hazePlace = o + toHaze * d;
      if (chances.x < chance) {
        meets = MEETS_HAZE;
#if ASKS_STRAIGHT
        lampSeen = lampSeen && toLamp <= toHaze;
#endif
      }
    }
#endif
#if ASKS_STRAIGHT
    if (lampSeen) keepLight(lamp, beta * lampLight);
#endif
    // On its first stretch every path asks what light a scattering there would find, weighed by its chance.
    bool asksHaze = chance > 0.0 && (meets == MEETS_HAZE || firstStretch) && shines;
    float hazeShare = haze.albedo * (firstStretch ? chance : 1.0);

    at.point.kind = AT_NOTHING;
    at.point.dome = dome;
    at.point.before = before;
    at.point.density = density;
    at.point.gloss = reached == REACHED_CAMERA ? GLOSS_SHARP : reached == REACHED_CONNECTED ? GLOSS_THROWN : GLOSS_BLURRED;
    at.point.at.p = o;
    at.point.at.n = d;
    at.sharp = false;
    bool throughSharp = false;
    bool asksHere = false;
    float share = 1.0;
    if (meets == MEETS_METER) {
      at.point.kind = AT_METER;
      setNormal(at.point.at, d);
      float mu = 2.0 * sqrt(turnings.x) - 1.0;
      d = turned(d, mu, turnings.y);
      density = (1.0 + mu) / (4.0 * PI);
      float response = receptorResponse(dome, mu);
      ended = response <= 0.0;
      beta = vec3(response / density);
      weight = beta.r;
      asksHere = true;
      started = true;
#if HAS_HAZE
    } else if (meets == MEETS_HAZE) {
      float keep = haze.albedo * survival(vertex, greatest(beta) * haze.albedo, weight, turnings.w);
      ended = keep == 0.0;
      beta *= keep;
      o = hazePlace;
      float mu = sampleHenyeyGreenstein(haze.anisotropy, turnings.x);
      d = turned(d, mu, turnings.y);
      density = henyeyGreenstein(haze.anisotropy, mu);
      before = o;
      reached = REACHED_CONNECTED;
#endif
    } else if (!solid) {
#if ASKS_STRAIGHT
      if (d.y > 0.0) keepLight(-1, beta * skyRadiance);
#endif
      ended = true;
    } else {
      vec3 p = o + D * d;
      vec3 through = dot(d, hit.normal) > 0.0 ? hit.normal : -hit.normal;
      at.point.substance = hit.substance;
      at.point.part = hit.part;
      if (hit.isPane) {
        float direct = paneDirectOf(hit.substance);
        float scattered = paneScattered(hit.substance);
        o = liftedOff(p, through);
        if (chances.z >= direct + scattered) {
          ended = true;
#if HAS_SHEETS
        } else if (chances.z >= direct) {
          meets = MEETS_SHEET;
          PaneLobe lobe = paneLobeOf(hit.substance);
          float cosOut = abs(dot(d, hit.normal));
          share = 1.0 / scattered;
          if (reached == REACHED_CONNECTED)
            share *= density / (density + paneConnectionDensity(before, hit.part, distance(p, before), cosOut));
          at.point.kind = AT_PANE;
          at.point.at.p = p;
          at.point.at.n = hit.normal;
          at.point.at.o = -d;
          d = turned(d, sampleLobe(lobe, turnings.x), turnings.y);
          float after = dot(d, through);
          // The part of the lobe that would come back out of the pane is lost in it.
          float kept = after > 0.0 ? scatteredWeight(lobe, after, cosOut) : 0.0;
          float keep = kept * survival(vertex, kept * greatest(beta), weight, turnings.w);
          ended = keep == 0.0;
          beta *= keep;
          reached = REACHED_LOOSE;
#endif
        }
      } else {
        meets = MEETS_SURFACE;
        at.point.kind = AT_SURFACE;
        at.optics = surfaceOptics(hit.substance);
        arriveAt(at.point.at, liftedOff(p, -through), d, hit.normal);
        at.sharp = at.optics.glossy && at.optics.alpha < SHARP_MAX_ALPHA;
        asksHere = !at.sharp || at.optics.baseLuminance > 0.0;
        o = at.point.at.p;
        SurfaceSample drawn;
        if (sampleSurface(at.optics, at.point.at.o, turnings.x, turnings.y, turnings.z, at.sharp, drawn)) {
          beta *= drawn.weight;
          beta *= survival(vertex, greatest(beta), weight, turnings.w);
          ended = greatest(beta) <= 0.0;
          d = drawn.w.x * at.point.at.u + drawn.w.y * at.point.at.v + drawn.w.z * at.point.at.n;
          density = drawn.pdf;
          before = o;
          throughSharp = at.sharp && drawn.glossy;
          if (!throughSharp) reached = REACHED_CONNECTED;
          else if (reached == REACHED_CAMERA) mirrorAlpha = at.optics.alpha;
          else reached = REACHED_LOOSE;
        } else {
          ended = true;
        }
      }
    }
    if (meets != MEETS_METER) vertex++;

    at.next = d;
#if ASKS_ONE_KIND && ASKS_STRAIGHT
    // Straight light that haze scatters on the way is airlight.
    bool inHaze = meets == MEETS_HAZE;
    at.inHaze = inHaze;
    at.x = inHaze ? hazePlace : at.point.at.p;
    at.connects = shines && (inHaze || asksHere);
    at.lit = shines && at.point.kind != AT_NOTHING;
    at.airlit = shines && stretches.length_m > 0.0;
    at.share = share;
    float glowDensity = gatherLight(at, stretches, random);
    if (at.connects && !throughSharp && glowDensity > 0.0) glowShare = density / (density + glowDensity);
#elif ASKS_ONE_KIND
    // Where both haze and what lies beyond it ask, one of them does for both: a loop round the two would double what some
    // drivers take to build the program.
    bool both = asksHaze && asksHere;
    at.inHaze = asksHaze && (!asksHere || chances.w < HAZE_TURNS);
    at.x = at.inHaze ? hazePlace : at.point.at.p;
    at.connects = shines && (at.inHaze || asksHere);
    at.share = at.inHaze ? hazeShare : share;
    if (both) at.share /= at.inHaze ? HAZE_TURNS : 1.0 - HAZE_TURNS;
    gatherLight(at, stretches, random);
#else
    bool inHaze = asksHaze;
    bool last = meets == MEETS_HAZE || !asksHaze;
    bool more = false;
    do {
      at.inHaze = inHaze;
      at.x = inHaze ? hazePlace : at.point.at.p;
      at.connects = shines && (inHaze || asksHere);
      at.lit = shines && !inHaze && at.point.kind != AT_NOTHING;
      at.airlit = shines && last && stretches.length_m > 0.0;
      at.share = inHaze ? hazeShare : share;
      float glowDensity = gatherLight(at, stretches, random);
      if (at.connects && (inHaze ? meets == MEETS_HAZE : !throughSharp)) glowShare = glowDensity > 0.0 ? density / (density + glowDensity) : 1.0;
      more = !last;
      last = true;
      inHaze = false;
    } while (more);
#endif
    if (meets == MEETS_HAZE || meets == MEETS_SHEET || meets == MEETS_SURFACE) {
      if (firstStretch) {
        beta *= standsForDeeper;
        weight *= standsForDeeper;
        ended = ended || standsForDeeper == 0.0;
      }
      firstStretch = false;
    }
  } while (!ended && ++turns < MAX_STEPS);
}
`,
};
