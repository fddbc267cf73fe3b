import type { Chunk } from './chunk.ts';
import { clearance } from './clearance.ts';
import { connection } from './connection.ts';
import { everyFeature } from './features.ts';
import { glowConnection } from './glow-connection.ts';
import { hazeConnection } from './haze-connection.ts';
import { everyLightKind } from './light-kinds.ts';
import { mirrorConnection } from './mirror-connection.ts';
import { paneConnection } from './pane-connection.ts';
import { straightWays } from './straight-ways.ts';
import { surfaceLamps } from './surface-lamps.ts';
import { vertex } from './vertex.ts';

/**
 * What vertex-light.ts keeps, for a program that asks for one kind of light. A card has few places at hand for a pixel's
 * numbers, and the more it needs the fewer pixels it draws at once: so one thing is made ready, traced and kept before the next.
 */
export const vertexPart: Chunk = {
  name: 'vertex-part',
  needs: [
    everyFeature,
    everyLightKind,
    connection,
    straightWays,
    surfaceLamps,
    vertex,
    mirrorConnection,
    paneConnection,
    hazeConnection,
    glowConnection,
    clearance,
  ],
  code: /* glsl */ `
#if ASKS_ONE_KIND && ASKS_STRAIGHT
// Keeps what the vertex gets. Returns the density with which it would have looked for glow where the path goes on.
float gatherLight(Vertex at, HazeStretches stretches, inout RandomState random) {
  float glowDensity = 0.0;
#if HAS_HAZE
  if (at.connects && theHaze().extinction_per_m > 0.0) glowDensity = glowDensityToward(at.x, at.next);
#endif
  vec4 numbers = nextFour(random);
  // Of lamps first, then of the stretch.
  bool ofLamps = at.lit;
  bool more = at.lit || at.airlit;
  if (more) do {
    vec3 from;
    vec3 to;
    vec3 light;
    int lamp;
    bool there = false;
    if (ofLamps) {
      LampSight sight;
      there = lightOfLamps(at.point, numbers.xyz, lamp, light, sight);
      light *= at.share;
      from = at.point.at.p;
      if (at.point.kind == AT_PANE) from = liftedOff(from, dot(sight.w, at.point.at.n) > 0.0 ? at.point.at.n : -at.point.at.n);
      to = sight.s - clearance_m(sight.d_m) * sight.w;
    }
#if HAS_HAZE
    else {
      Connection found;
      there = connectHaze(at.from, at.along, stretches, at.tries, numbers.w, nextFour(random), found, from, to);
      lamp = found.lamp;
      light = at.airShare * found.value;
    }
#endif
    if (there) {
      vec3 way = to - from;
      float reach = length(way);
      keepLight(lamp, at.carries * light * transmittance(from, way / reach, 0.0, reach, false));
    }
    more = ofLamps && at.airlit;
    ofLamps = false;
  } while (more);
  return glowDensity;
}
#elif ASKS_ONE_KIND
// The same of light by one stop on the way; a program of straight light asks for the density.
float gatherLight(Vertex at, HazeStretches stretches, inout RandomState random) {
  vec4 numbers = nextFour(random);
#if ASKS_MIRRORED
  vec4 more = nextFour(random);
#endif
  if (!at.connects) return 0.0;
  int arrival = at.inHaze ? ARRIVAL_HAZE : at.point.kind == AT_METER ? ARRIVAL_METER : ARRIVAL_SURFACE;
  vec3 n = at.point.at.n;
  Connection found;
  bool there = false;
  wayCount = 0;
#if HAS_MIRRORS && ASKS_MIRRORED
  int by = BY_MIRROR;
  there = mirrorPairsAt.x > 0 && connectMirror(at.x, n, arrival, numbers.x, more, by, found);
#elif HAS_SHEETS && ASKS_SCATTERED
  int by = BY_PANE;
  PaneSheet sheet;
  vec3 q;
  there = paneSheetsAt.x > 0 && choosePanePoint(at.x, n, arrival, numbers.xyz, sheet, q, found);
#elif HAS_HAZE && ASKS_GLOWING
  int by = BY_GLOW;
  Glow glow = glowAt(at.x, at.next, numbers);
  there = theHaze().extinction_per_m > 0.0;
  found.w = glow.w;
  found.own = glow.own;
  found.value = vec3(1.0);
#else
  int by = 0;
#endif
  if (!there) return 0.0;
  float others;
  vec3 answer = answerOf(at, found.w, others);
  vec3 light = found.value * answer * (at.share / (found.own + others));
  if (light == vec3(0.0)) return 0.0;
#if HAS_SHEETS && ASKS_SCATTERED
  LitPoint lit = at.point;
  lit.kind = AT_PANE;
  lit.at.p = q;
  lit.at.n = sheet.n;
  lit.at.o = -found.w;
  lit.substance = sheet.pane;
  LampSight sight;
  vec3 arriving;
  if (!lightOfLamps(lit, nextFour(random).xyz, found.lamp, arriving, sight)) return 0.0;
  light *= arriving;
  addWay(by, LIGHT_PASSES, liftedOff(q, dot(sight.w, sheet.n) > 0.0 ? sheet.n : -sheet.n), sight.s - clearance_m(sight.d_m) * sight.w);
  addWay(by, LIGHT_PASSES, at.x, liftedOff(q, dot(found.w, sheet.n) > 0.0 ? -sheet.n : sheet.n));
#elif HAS_HAZE && ASKS_GLOWING
  HazeStretches hazed;
  hazeAlong(theHaze().regionCount, at.x, found.w, FAR_m, hazed);
  if (!(hazed.length_m > 0.0)) return 0.0;
  vec3 from;
  vec3 to;
  vec4 choice = nextFour(random);
  if (!connectHaze(at.x, found.w, hazed, 1, choice.x, nextFour(random), found, from, to)) return 0.0;
  light *= found.value;
  addWay(by, LIGHT_PASSES, from, to);
  addWay(by, NOTHING_THERE, at.x, from);
#endif
  passed[by] = 1.0;
  traceWays();
  keepLight(found.lamp, at.carries * light * passed[by]);
  return 0.0;
}
#endif
`,
};
