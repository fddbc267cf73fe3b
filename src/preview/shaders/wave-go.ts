import type { Chunk } from './chunk.ts';
import { type Features, featuresChunk } from './features.ts';
import { glowConnection } from './glow-connection.ts';
import { keptLight } from './kept-light.ts';
import { pathTurn } from './path-turn.ts';
import { waveOut } from './wave-out.ts';

/** Where they go on. */
export const waveGo = (features: Features): Chunk => ({
  name: 'wave-go',
  needs: [featuresChunk(features), keptLight(1), waveOut, pathTurn, glowConnection],
  code: /* glsl */ `
void main() {
  ivec2 pixel = ivec2(gl_FragCoord.xy);
  RandomState random = numbersOfTurn(pixel, 0u, 0u);
  vec4 chances = nextFour(random);
  vec4 turnings = nextFour(random);
  PathState path = pathAt(pixel);
  Meeting met = meetingAt(pixel);
  HazeAhead ahead = hazeAhead(path, met.t, chances.y);
  bool inHaze = meetsHaze(ahead, chances.x);
  bool goesSharp;
  Vertex at = takeTurn(path, met, ahead, chances, turnings, goesSharp);
#if HAS_HAZE
  if ((inHaze || at.asksHere) && !goesSharp && litLampsAt.x > 0 && theHaze().extinction_per_m > 0.0)
    path.airShare = shareOfAirlight(path, glowDensityToward(at.x, path.d));
#endif
  writePath(path, at.point.kind, inHaze);
}
`,
});
