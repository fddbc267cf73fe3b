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
 * What a vertex of a path gets straight from lamps and by one stop on the way, and what haze gives along the stretch before
 * it. All that a vertex may ask is gone through once, in one order: pixels drawn together go through all code that any of
 * them asks for, and software through all there is, so that what counts is how often, not which of it.
 *
 * The glow of haze is airlight along a ray from here to wherever it ends. Here the place is drawn first, from the whole ray,
 * and what lies before it is asked then: the same integral, ∫ V(x, y)·L(y) dt with V = 0 beyond the first thing met, for the
 * price of a shadow ray instead of a closest hit with a step of its own.
 */
export const vertexLight: Chunk = {
  name: 'vertex-light',
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
// Keeps what the vertex gets. Returns the density with which it would have looked for glow where the path goes on.
float gatherLight(Vertex at, HazeStretches stretches, inout RandomState random) {
  vec3 light[CONNECTIONS];
  int lampOf[CONNECTIONS];
  bool there[3];
  vec3 w[3];
  float own[3];
  wayCount = 0;
  for (int k = 0; k < CONNECTIONS; k++) {
    light[k] = vec3(0.0);
    lampOf[k] = 0;
    passed[k] = 1.0;
  }
  for (int k = 0; k < 3; k++) there[k] = false;
  float glowDensity = 0.0;
  int arrival = at.inHaze ? ARRIVAL_HAZE : at.point.kind == AT_METER ? ARRIVAL_METER : ARRIVAL_SURFACE;
  vec3 n = at.point.at.n;
  vec4 first = nextFour(random);
  vec4 second = nextFour(random);
  vec4 third = nextFour(random);
  Connection found;

#if HAS_MIRRORS
  if (at.connects && mirrorPairsAt.x > 0) {
    there[BY_MIRROR] = connectMirror(at.x, n, arrival, first.x, second, BY_MIRROR, found);
    w[BY_MIRROR] = found.w;
    own[BY_MIRROR] = found.own;
    light[BY_MIRROR] = found.value;
    lampOf[BY_MIRROR] = found.lamp;
  }
#endif
#if HAS_SHEETS
  PaneSheet sheet;
  vec3 q;
  if (at.connects && paneSheetsAt.x > 0) {
    there[BY_PANE] = choosePanePoint(at.x, n, arrival, first.yzw, sheet, q, found);
    w[BY_PANE] = found.w;
    own[BY_PANE] = found.own;
    light[BY_PANE] = found.value;
  }
#endif
#if HAS_HAZE
  if (at.connects && theHaze().extinction_per_m > 0.0) {
    Glow glow = glowAt(at.x, at.next, third);
    glowDensity = glow.other;
    there[BY_GLOW] = true;
    w[BY_GLOW] = glow.w;
    own[BY_GLOW] = glow.own;
    light[BY_GLOW] = vec3(1.0);
  }
#endif
  int k = 0;
  do {
    if (there[k]) {
      float others;
      vec3 answer = answerOf(at, w[k], others);
      light[k] *= answer * (at.share / (own[k] + others));
      there[k] = light[k] != vec3(0.0);
    }
    if (!there[k]) passed[k] = 0.0;
  } while (++k < 3);

  // Of the connections first, then of the vertex itself.
  bool itself = at.lit || at.airlit;
  bool ofItself = !there[BY_PANE] && !there[BY_GLOW];
  bool more = !ofItself || itself;
  if (more) do {
    vec4 lampNumbers = nextFour(random);
    vec4 hazeNumbers = nextFour(random);
    if (ofItself ? at.lit : there[BY_PANE]) {
      LitPoint lit = at.point;
#if HAS_SHEETS
      if (!ofItself) {
        lit.kind = AT_PANE;
        lit.at.p = q;
        lit.at.n = sheet.n;
        lit.at.o = -w[BY_PANE];
        lit.substance = sheet.pane;
      }
#endif
      int which = ofItself ? BY_LAMPS : BY_PANE;
      LampSight sight;
      vec3 arriving;
      int lamp;
      if (lightOfLamps(lit, lampNumbers.xyz, lamp, arriving, sight)) {
        vec3 start = lit.at.p;
        if (lit.kind == AT_PANE) start = liftedOff(start, dot(sight.w, lit.at.n) > 0.0 ? lit.at.n : -lit.at.n);
        addWay(which, LIGHT_PASSES, start, sight.s - clearance_m(sight.d_m) * sight.w);
#if HAS_SHEETS
        if (!ofItself) addWay(BY_PANE, LIGHT_PASSES, at.x, liftedOff(q, dot(w[BY_PANE], sheet.n) > 0.0 ? -sheet.n : sheet.n));
#endif
        light[which] = ofItself ? at.share * arriving : light[which] * arriving;
        lampOf[which] = lamp;
      } else {
        passed[which] = 0.0;
      }
    }
#if HAS_HAZE
    if (ofItself ? at.airlit : there[BY_GLOW]) {
      int which = ofItself ? BY_AIRLIGHT : BY_GLOW;
      vec3 o = ofItself ? at.from : at.x;
      vec3 d = ofItself ? at.along : w[BY_GLOW];
      HazeStretches hazed = stretches;
      if (!ofItself) hazeAlong(theHaze().regionCount, o, d, FAR_m, hazed);
      vec3 from;
      vec3 to;
      if (
        hazed.length_m > 0.0 &&
        connectHaze(o, d, hazed, ofItself ? at.tries : 1, lampNumbers.w, hazeNumbers, found, from, to)
      ) {
        addWay(which, LIGHT_PASSES, from, to);
        if (!ofItself) addWay(which, NOTHING_THERE, o, from);
        light[which] = found.value * (ofItself ? vec3(at.airShare) : light[which]);
        lampOf[which] = found.lamp;
      } else {
        passed[which] = 0.0;
      }
    }
#endif
    more = itself && !ofItself;
    ofItself = true;
  } while (more);

  traceWays();
  int which = 0;
  do {
    if (light[which] != vec3(0.0)) keepLight(lampOf[which], at.carries * light[which] * passed[which]);
  } while (++which < CONNECTIONS);
  return glowDensity;
}
`,
};
