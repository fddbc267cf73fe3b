import type { Chunk } from './chunk.ts';
import { clearance } from './clearance.ts';
import { everyFeature } from './features.ts';
import { henyeyGreenstein } from './henyey-greenstein.ts';
import { nearOne } from './near-one.ts';
import { paneConnection } from './pane-connection.ts';
import { pathMeeting } from './path-meeting.ts';
import { pathState } from './path-state.ts';
import { sample } from './sample.ts';
import { surfacePoint } from './surface-point.ts';
import { vertex } from './vertex.ts';

/** One turn of a path: where it stands when it has met something, what it may ask there, and where it goes on. */
export const pathTurn: Chunk = {
  name: 'path-turn',
  needs: [
    everyFeature,
    pathState,
    pathMeeting,
    vertex,
    paneConnection,
    henyeyGreenstein,
    nearOne,
    sample,
    surfacePoint,
    clearance,
  ],
  code: /* glsl */ `
// Places tried for each lamp along the stretch that a camera or a meter sees itself.
const int FIRST_TRIES = 4;

struct HazeAhead {
  HazeStretches stretches;
  // That haze scatters the path before it meets anything else, and where if it does.
  float chance;
  float to_m;
};

// By the number where.
HazeAhead hazeAhead(PathState path, float D, float number) {
  HazeAhead ahead;
  ahead.stretches.length_m = 0.0;
  ahead.chance = 0.0;
  ahead.to_m = 0.0;
#if HAS_HAZE
  Haze haze = theHaze();
  if (haze.extinction_per_m > 0.0 && !path.atMeter) {
    hazeAlong(haze.regionCount, path.o, path.d, D, ahead.stretches);
    ahead.chance = -expm1(-haze.extinction_per_m * ahead.stretches.length_m);
    float depth = -log1p(-ahead.chance * number);
    ahead.to_m = placeInHaze_m(ahead.stretches, depth / haze.extinction_per_m);
  }
#endif
  return ahead;
}

// What share of the light that a scattering pane sends on along the path is the path's own, and not found by the vertex before.
float paneShare(PathState path, Meeting met, vec3 p) {
  float share = 1.0 / paneScattered(met.substance);
  if (path.reached != REACHED_CONNECTED) return share;
  float cosOut = abs(dot(path.d, met.normal));
  float other = paneConnectionDensity(path.before, met.part, distance(p, path.before), cosOut);
  return share * path.density / (path.density + other);
}

// The vertex where a path stands that has met a thing of this kind at p, or none.
Vertex vertexOf(PathState path, Meeting met, int kind, vec3 p) {
  Vertex at;
  at.x = p;
  at.from = path.o;
  at.along = path.d;
  at.carries = path.carries;
  at.airShare = path.airShare;
  at.tries = path.firstStretch ? FIRST_TRIES : 1;
  at.inHaze = false;
  at.asksHere = false;
  at.connects = false;
  at.airlit = false;
  at.share = 1.0;
  at.sharp = false;
  at.lit = litLampsAt.x > 0 && kind != AT_NOTHING;
  at.point.kind = kind;
  at.point.dome = path.dome;
  at.point.before = path.before;
  at.point.density = path.density;
  at.point.gloss = path.reached == REACHED_CAMERA ? GLOSS_SHARP : path.reached == REACHED_CONNECTED ? GLOSS_THROWN : GLOSS_BLURRED;
  at.point.substance = met.substance;
  at.point.part = met.part;
  at.point.at.p = p;
  at.point.at.n = path.d;
  if (kind == AT_METER) {
    setNormal(at.point.at, path.d);
    at.asksHere = true;
#if HAS_SHEETS
  } else if (kind == AT_PANE) {
    at.point.at.n = met.normal;
    at.point.at.o = -path.d;
    at.share = paneShare(path, met, p);
#endif
  } else if (kind == AT_SURFACE) {
    at.optics = surfaceOptics(met.substance);
    arriveAt(at.point.at, p, path.d, met.normal);
    at.sharp = at.optics.glossy && at.optics.alpha < SHARP_MAX_ALPHA;
    at.asksHere = !at.sharp || at.optics.baseLuminance > 0.0;
  }
  return at;
}

// Whether haze scatters the path before it meets anything else, by the number whether.
bool meetsHaze(HazeAhead ahead, float number) {
  return number < ahead.chance;
}

// Takes the path on. Returns the vertex where it stood, its share of glow still to be asked (shareOfAirlight), and whether it
// went on by a sharp reflection. The numbers: whether haze scatters and where, which lobe or light; the direction and roulette.
Vertex takeTurn(inout PathState path, Meeting met, HazeAhead ahead, vec4 chances, vec4 turnings, out bool goesSharp) {
  PathState was = path;
  goesSharp = false;
  bool inHaze = !was.atMeter && meetsHaze(ahead, chances.x);
  bool meets = !was.atMeter && !inHaze && met.solid;
  vec3 through = dot(was.d, met.normal) > 0.0 ? met.normal : -met.normal;
  float direct = 0.0;
  int kind = AT_NOTHING;
  vec3 p = was.o + (inHaze ? ahead.to_m : meets ? met.t : 0.0) * was.d;
  if (was.atMeter) {
    kind = AT_METER;
  } else if (meets && met.isPane) {
    direct = paneDirectOf(met.substance);
#if HAS_SHEETS
    if (chances.z >= direct && chances.z < direct + paneScattered(met.substance)) kind = AT_PANE;
#endif
  } else if (meets) {
    kind = AT_SURFACE;
    p = liftedOff(p, -through);
  }
  // At one place for all: a driver copies a function to wherever it is called.
  Vertex at = vertexOf(was, met, kind, p);

  path.airShare = 1.0;
  path.firstStretch = false;
  path.met++;
  path.ended = true;
  if (kind == AT_METER) {
    float mu = 2.0 * sqrt(turnings.x) - 1.0;
    path.d = turned(was.d, mu, turnings.y);
    path.density = (1.0 + mu) / (4.0 * PI);
    float response = receptorResponse(path.dome, mu);
    path.ended = response <= 0.0;
    path.carries = vec3(response / path.density);
    path.weight = path.carries.r;
    path.atMeter = false;
    path.firstStretch = true;
    path.met = 0;
#if HAS_HAZE
  } else if (inHaze) {
    Haze haze = theHaze();
    float keep = haze.albedo * survival(was.met, greatest(was.carries) * haze.albedo, was.weight, turnings.w);
    path.ended = keep == 0.0;
    path.carries *= keep;
    path.o = p;
    float mu = sampleHenyeyGreenstein(haze.anisotropy, turnings.x);
    path.d = turned(was.d, mu, turnings.y);
    path.density = henyeyGreenstein(haze.anisotropy, mu);
    path.before = path.o;
    path.reached = REACHED_CONNECTED;
#endif
#if HAS_SHEETS
  } else if (kind == AT_PANE) {
    path.o = liftedOff(p, through);
    PaneLobe lobe = paneLobeOf(met.substance);
    float cosOut = abs(dot(was.d, met.normal));
    path.d = turned(was.d, sampleLobe(lobe, turnings.x), turnings.y);
    float after = dot(path.d, through);
    // The part of the lobe that would come back out of the pane is lost in it.
    float kept = after > 0.0 ? scatteredWeight(lobe, after, cosOut) : 0.0;
    float keep = kept * survival(was.met, kept * greatest(was.carries), was.weight, turnings.w);
    path.ended = keep == 0.0;
    path.carries *= keep;
    path.reached = REACHED_LOOSE;
#endif
  } else if (meets && met.isPane) {
    path.o = liftedOff(p, through);
    path.ended = chances.z >= direct;
    path.firstStretch = was.firstStretch;
  } else if (kind == AT_SURFACE) {
    path.o = p;
    SurfaceSample drawn;
    if (sampleSurface(at.optics, at.point.at.o, turnings.x, turnings.y, turnings.z, at.sharp, drawn)) {
      path.carries *= drawn.weight;
      path.carries *= survival(was.met, greatest(path.carries), was.weight, turnings.w);
      path.ended = greatest(path.carries) <= 0.0;
      path.d = drawn.w.x * at.point.at.u + drawn.w.y * at.point.at.v + drawn.w.z * at.point.at.n;
      path.density = drawn.pdf;
      path.before = path.o;
      goesSharp = at.sharp && drawn.glossy;
      if (!goesSharp) path.reached = REACHED_CONNECTED;
      else if (was.reached == REACHED_CAMERA) path.mirrorAlpha = at.optics.alpha;
      else path.reached = REACHED_LOOSE;
    }
  }
  return at;
}

// The path's share of the next stretch's airlight, the vertex having looked for glow.
float shareOfAirlight(PathState path, float glowDensity) {
  return glowDensity > 0.0 ? path.density / (path.density + glowDensity) : 1.0;
}
`,
};
