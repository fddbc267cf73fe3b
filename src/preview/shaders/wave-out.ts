import type { Chunk } from './chunk.ts';
import { waveState } from './wave-state.ts';

/** What a pass writes that takes paths on: where they stand, as wave-state.ts reads it. */
export const waveOut: Chunk = {
  name: 'wave-out',
  needs: [waveState],
  code: /* glsl */ `
layout(location = 0) out vec4 nextPlace;
layout(location = 1) out vec4 nextAlong;
layout(location = 2) out vec4 nextCarries;
layout(location = 3) out vec4 nextBefore;

void writePath(PathState path, int kind, bool inHaze) {
  nextPlace = vec4(path.o, codeOf(path, kind, inHaze));
  nextAlong = vec4(path.d, path.reached == REACHED_CAMERA ? path.mirrorAlpha : path.density);
  nextCarries = vec4(path.carries, path.weight);
  nextBefore = vec4(path.before, path.airShare);
}
`,
};
