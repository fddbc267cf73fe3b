import type { Chunk } from './chunk.ts';
import { everyFeature } from './features.ts';
import { lightSeen } from './light-seen.ts';
import { pathMeeting } from './path-meeting.ts';
import { pathState } from './path-state.ts';
import { pathTurn } from './path-turn.ts';
import { vertexLight } from './vertex-light.ts';

/**
 * Follows light backwards from a camera or a meter, as the core's path.ts does: which connections are made at a vertex and
 * what the next one may then count stands there. But a lamp's face ends no path here: it outshines what it hides, by far, and
 * when that shows through, no lamp's light hangs on where another one stands, which is what light kept by lamp needs. Here it
 * is one loop with one closest-hit and one shadow call, because a driver may copy a function to every place that calls it.
 * Loops that surely run once are tested at their end: pixels drawn together, and software always, would go through their code
 * once more only to find that it is over. A card takes the turns of all paths one after the other instead (wave-state.ts).
 */
export const path: Chunk = {
  name: 'path',
  needs: [everyFeature, pathState, pathMeeting, pathTurn, lightSeen, vertexLight],
  code: /* glsl */ `
// Keeps the radiance (linear RGB, cd/m²) along the path of a camera; of a meter, what it reads (lx).
void tracePath(PathState path, inout RandomState random) {
  bool shines = litLampsAt.x > 0;
  int turns = 0;
  do {
    vec4 chances = nextFour(random);
    vec4 turnings = nextFour(random);
    Meeting met = meetingOf(path);
    HazeAhead ahead = hazeAhead(path, met.t, chances.y);
    bool inHaze = meetsHaze(ahead, chances.x);
    keepSeen(path, met, inHaze ? ahead.to_m : FAR_m);
    // On its first stretch every path asks what light a scattering there would find, weighed by its chance.
    bool asksHaze = ahead.chance > 0.0 && (inHaze || path.firstStretch) && shines;
    float hazeShare = theHaze().albedo * (path.firstStretch ? ahead.chance : 1.0);
    vec3 hazePlace = path.o + ahead.to_m * path.d;
    bool goesSharp;
    Vertex at = takeTurn(path, met, ahead, chances, turnings, goesSharp);
    at.next = path.d;
    vec3 x = at.x;
    bool lit = at.lit;
    float share = at.share;
    bool ofHaze = asksHaze;
    bool last = inHaze || !asksHaze;
    bool more = false;
    do {
      at.inHaze = ofHaze;
      at.x = ofHaze ? hazePlace : x;
      at.connects = shines && (ofHaze || at.asksHere);
      at.lit = !ofHaze && lit;
      at.airlit = shines && last && ahead.stretches.length_m > 0.0;
      at.share = ofHaze ? hazeShare : share;
      float glowDensity = gatherLight(at, ahead.stretches, random);
      if (at.connects && (ofHaze ? inHaze : !goesSharp)) path.airShare = shareOfAirlight(path, glowDensity);
      more = !last;
      last = true;
      ofHaze = false;
    } while (more);
  } while (!path.ended && ++turns < MAX_TURNS);
}
`,
};
