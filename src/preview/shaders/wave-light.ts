import type { Chunk } from './chunk.ts';
import { type Features, featuresChunk } from './features.ts';
import { keptLight } from './kept-light.ts';
import { LIGHT_KINDS, type LightKind, lightKindChunk } from './light-kinds.ts';
import { lightSeen } from './light-seen.ts';
import { pathTurn } from './path-turn.ts';
import { turns } from './turns.ts';
import { vertexPart } from './vertex-part.ts';
import { waveState } from './wave-state.ts';

const PLACE_OF_LAMPS = 8;
const PLACE_OF_AIRLIGHT = 11;

const GATHERS: Readonly<Record<LightKind, string>> = {
  lamps: /* glsl */ `
  keepSeen(path, met, inHaze ? distance(path.o, place.xyz) : FAR_m);
  RandomState random = numbersOfTurn(pixel, 0u, ${PLACE_OF_LAMPS}u);
  gatherLight(at, nextFour(random).xyz);`,
  airlight: /* glsl */ `
#if HAS_HAZE
  HazeStretches stretches;
  if (litLampsAt.x == 0 || path.atMeter) discard;
  hazeAlong(theHaze().regionCount, path.o, path.d, met.t, stretches);
  if (!(stretches.length_m > 0.0)) discard;
  RandomState random = numbersOfTurn(pixel, 0u, ${PLACE_OF_AIRLIGHT}u);
  float choice = nextRandom(random);
  gatherLight(at, stretches, choice, nextFour(random));
#endif`,
  mirrored: '',
  scattered: '',
  glowing: '',
};

/** Where both haze and what lies beyond it ask, one of them does for both: two loops would double what a program takes. */
const BY_ONE_STOP = /* glsl */ `
  RandomState random = numbersOfTurn(pixel, 0u, 0u);
  vec4 chances = nextFour(random);
  HazeAhead ahead = hazeAhead(path, met.t, chances.y);
  bool shines = litLampsAt.x > 0;
  bool asksHaze = shines && ahead.chance > 0.0 && (inHaze || path.firstStretch);
  bool both = asksHaze && at.asksHere;
  at.inHaze = asksHaze && (!at.asksHere || chances.w < HAZE_TURNS);
  at.connects = shines && (at.inHaze || at.asksHere);
  if (!at.connects) discard;
  if (at.inHaze) {
    at.x = path.o + ahead.to_m * path.d;
    at.share = theHaze().albedo * (path.firstStretch ? ahead.chance : 1.0);
  }
  if (both) at.share /= at.inHaze ? HAZE_TURNS : 1.0 - HAZE_TURNS;
  at.next = path.d;
  RandomState own = numbersOfTurn(pixel, KIND, 0u);
  gatherLight(at, own);`;

/** Which light of its kind the vertices get, how often it is asked for, and how often beyond the first stretch. */
export const waveLight = (
  features: Features,
  sums: number,
  kind: LightKind,
  every: number,
  deeperEvery: number,
): Chunk => {
  const each = (line: (i: number) => string) => Array.from({ length: sums }, (_, i) => line(i)).join('\n');
  const thins = every > 1 || deeperEvery > 1;
  return {
    name: 'wave-light',
    needs: [
      featuresChunk(features),
      lightKindChunk(kind),
      keptLight(sums),
      waveState,
      pathTurn,
      lightSeen,
      vertexPart,
      turns,
    ],
    code: /* glsl */ `
// Where paths go on from here.
uniform sampler2D nextPlace;
${thins ? `uniform bool wholeEverywhere;` : ''}
${each((i) => `layout(location = ${i}) out vec4 light${i};`)}

const uint KIND = ${LIGHT_KINDS.indexOf(kind)}u;
// How often haze asks along the first stretch, where what lies beyond it would ask too.
const float HAZE_TURNS = 0.25;

void main() {
  ivec2 pixel = ivec2(gl_FragCoord.xy);
  float stands = 1.0;
${
  thins
    ? `  if (!wholeEverywhere) {
    bool firstStretch = (codeAt(texelFetch(pathPlace, pixel, 0).w) & CODE_FIRST) != 0;
    ivec2 block = namedPixel(pixel) / BLOCK_px;
    uint name = mixed32(mixed32(seed + KIND) + uint(block.y * namedWidth + block.x));
    stands = standsFor(name, samplesBefore - 1u, ${every}u);
    if (!firstStretch) stands *= standsFor(mixed32(name), (samplesBefore - 1u) / ${every}u, ${deeperEvery}u);
  }
  if (stands == 0.0) discard;`
    : ''
}
  PathState path = pathAt(pixel);
  Meeting met = meetingAt(pixel);
  vec4 place = texelFetch(nextPlace, pixel, 0);
  int code = codeAt(place.w);
  bool inHaze = (code & CODE_HAZE) != 0;
  int kind = kindOfCode(code);
  vec3 p = kind == AT_METER ? path.o : kind == AT_PANE ? path.o + met.t * path.d : place.xyz;
  Vertex at = vertexOf(path, met, kind, p);
${each((i) => `  keptLight[${i}] = vec3(0.0);`)}
${GATHERS[kind] || BY_ONE_STOP}
  float most = 0.0;
${each((i) => `  light${i} = vec4(stands * keptLight[${i}], 0.0);\n  most += dot(abs(keptLight[${i}]), vec3(1.0));`)}
  if (most == 0.0) discard;
}
`,
  };
};
