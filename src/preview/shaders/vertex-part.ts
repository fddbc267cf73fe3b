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
 * numbers, and the more it needs the fewer pixels it draws at once.
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
#if ASKS_ONE_KIND
void keepAlong(Vertex at, vec3 from, vec3 to, int lamp, vec3 light) {
  vec3 way = to - from;
  float reach = length(way);
  keepLight(lamp, at.carries * light * transmittance(from, way / reach, 0.0, reach, false));
}

#if ASKS_LAMPS
// Keeps what the vertex gets straight from lamps, by three numbers.
void gatherLight(Vertex at, vec3 numbers) {
  int lamp;
  vec3 light;
  LampSight sight;
  if (!at.lit || !lightOfLamps(at.point, numbers, lamp, light, sight)) return;
  vec3 from = at.point.at.p;
  if (at.point.kind == AT_PANE) from = liftedOff(from, dot(sight.w, at.point.at.n) > 0.0 ? at.point.at.n : -at.point.at.n);
  keepAlong(at, from, sight.s - clearance_m(sight.d_m) * sight.w, lamp, at.share * light);
}
#elif ASKS_AIRLIGHT
#if HAS_HAZE
// Keeps what haze gives along the stretch before the vertex; which lamp, and the numbers of its place.
void gatherLight(Vertex at, HazeStretches stretches, float choice, vec4 numbers) {
  Connection found;
  vec3 from;
  vec3 to;
  if (!connectHaze(at.from, at.along, stretches, at.tries, choice, numbers, found, from, to)) return;
  keepAlong(at, from, to, found.lamp, at.airShare * found.value);
}
#endif
#else
// Keeps what the vertex gets by one stop on the way.
void gatherLight(Vertex at, inout RandomState random) {
  vec4 numbers = nextFour(random);
#if ASKS_MIRRORED
  vec4 more = nextFour(random);
#endif
  if (!at.connects) return;
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
  if (!there) return;
  float others;
  vec3 answer = answerOf(at, found.w, others);
  vec3 light = found.value * answer * (at.share / (found.own + others));
  if (light == vec3(0.0)) return;
#if HAS_SHEETS && ASKS_SCATTERED
  LitPoint lit = at.point;
  lit.kind = AT_PANE;
  lit.at.p = q;
  lit.at.n = sheet.n;
  lit.at.o = -found.w;
  lit.substance = sheet.pane;
  LampSight sight;
  vec3 arriving;
  if (!lightOfLamps(lit, nextFour(random).xyz, found.lamp, arriving, sight)) return;
  light *= arriving;
  addWay(by, LIGHT_PASSES, liftedOff(q, dot(sight.w, sheet.n) > 0.0 ? sheet.n : -sheet.n), sight.s - clearance_m(sight.d_m) * sight.w);
  addWay(by, LIGHT_PASSES, at.x, liftedOff(q, dot(found.w, sheet.n) > 0.0 ? -sheet.n : sheet.n));
#elif HAS_HAZE && ASKS_GLOWING
  HazeStretches hazed;
  hazeAlong(theHaze().regionCount, at.x, found.w, FAR_m, hazed);
  if (!(hazed.length_m > 0.0)) return;
  vec3 from;
  vec3 to;
  vec4 choice = nextFour(random);
  if (!connectHaze(at.x, found.w, hazed, 1, choice.x, nextFour(random), found, from, to)) return;
  light *= found.value;
  addWay(by, LIGHT_PASSES, from, to);
  addWay(by, NOTHING_THERE, at.x, from);
#endif
  passed[by] = 1.0;
  traceWays();
  keepLight(found.lamp, at.carries * light * passed[by]);
}
#endif
#endif
`,
};
