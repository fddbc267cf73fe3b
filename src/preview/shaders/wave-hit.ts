import type { Chunk } from './chunk.ts';
import { type Features, featuresChunk } from './features.ts';
import { keptLight } from './kept-light.ts';
import { pathMeeting } from './path-meeting.ts';
import { waveState } from './wave-state.ts';

/** What lies ahead of the paths. */
export const waveHit = (features: Features): Chunk => ({
  name: 'wave-hit',
  needs: [featuresChunk(features), keptLight(1), waveState, pathMeeting],
  code: /* glsl */ `
layout(location = 0) out vec4 normalAndDistance;
layout(location = 1) out vec4 names;

void main() {
  Meeting met = meetingOf(pathAt(ivec2(gl_FragCoord.xy)));
  normalAndDistance = vec4(met.normal, met.t);
  names = vec4(met.part, met.isPane ? -1 - met.substance : met.substance, met.lamp, met.toLamp);
}
`,
});
