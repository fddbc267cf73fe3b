import type { Chunk } from './chunk.ts';
import { pathMeeting } from './path-meeting.ts';
import { pathState } from './path-state.ts';
import { pixelNumbers } from './pixel-numbers.ts';
import { surfaceLamps } from './surface-lamps.ts';

/**
 * A card takes all paths of a tile through a turn together, in passes that each do one thing: what lies ahead (wave-hit.ts),
 * where the path goes on (wave-go.ts), and a pass for each kind of light (wave-light.ts). Small programs need few of the
 * places that a card has for a pixel's numbers, so that it draws many pixels at once while others wait for what they have
 * fetched. Between passes a path stands in textures, read here; one that has ended is drawn no more (wave-ended.ts).
 */
export const waveState: Chunk = {
  name: 'wave-state',
  needs: [pathState, pathMeeting, pixelNumbers, surfaceLamps],
  code: /* glsl */ `
// Place, with what else is to be known of the path; direction, with its density or α of the sharp reflection; what the path
// carries, with its weight; where the vertex before stood, with the share of airlight.
uniform sampler2D pathPlace;
uniform sampler2D pathAlong;
uniform sampler2D pathCarries;
uniform sampler2D pathBefore;
// What lies ahead of it: normal and distance; part, surface or (below 0) pane, lamp seen and where.
uniform sampler2D aheadNormal;
uniform sampler2D aheadNames;
// Turns so far, and things met.
uniform int turn;
uniform int metSoFar;

const uint NUMBERS_TO_START = 4u;
const uint NUMBERS_A_TURN = 16u;

// The numbers of a turn, from this one on.
RandomState numbersOfTurn(ivec2 pixel, uint kind, uint from) {
  return numbersFrom(pixel, kind, NUMBERS_TO_START + NUMBERS_A_TURN * uint(turn) + from);
}

const int CODE_FIRST = 4;
const int CODE_METER = 8;
const int CODE_DOME = 16;
const int CODE_KINDS = 32;
const int CODE_HAZE = 128;

// Below 0 where the path has ended; with the kind of vertex where it stood last, and whether that was haze.
float codeOf(PathState path, int kind, bool inHaze) {
  int code = path.reached + (path.firstStretch ? CODE_FIRST : 0) + (path.atMeter ? CODE_METER : 0) +
    (path.dome ? CODE_DOME : 0) + CODE_KINDS * kind + (inHaze ? CODE_HAZE : 0);
  return float(path.ended ? -1 - code : code);
}

int codeAt(float w) {
  return int(w < 0.0 ? -1.0 - w : w);
}

int kindOfCode(int code) {
  return (code / CODE_KINDS) & 3;
}

PathState pathAt(ivec2 pixel) {
  vec4 place = texelFetch(pathPlace, pixel, 0);
  vec4 along = texelFetch(pathAlong, pixel, 0);
  vec4 carries = texelFetch(pathCarries, pixel, 0);
  vec4 before = texelFetch(pathBefore, pixel, 0);
  int code = codeAt(place.w);
  int reached = code & 3;
  return PathState(
    place.xyz,
    along.xyz,
    reached,
    reached == REACHED_CAMERA ? along.w : -1.0,
    before.xyz,
    along.w,
    carries.rgb,
    carries.a,
    before.w,
    (code & CODE_FIRST) != 0,
    (code & CODE_METER) != 0,
    (code & CODE_DOME) != 0,
    metSoFar,
    place.w < 0.0
  );
}

Meeting meetingAt(ivec2 pixel) {
  vec4 normal = texelFetch(aheadNormal, pixel, 0);
  vec4 names = texelFetch(aheadNames, pixel, 0);
  bool isPane = names.y < 0.0;
  int substance = int(isPane ? -1.0 - names.y : names.y);
  return Meeting(names.x >= 0.0, normal.w, normal.xyz, int(names.x), isPane, substance, int(names.z), names.w);
}
`,
};
