import type { Chunk } from './chunk.ts';

/** Writes the nearest depth where a path has ended, so that nothing is drawn there any more. */
export const waveEnded: Chunk = {
  name: 'wave-ended',
  needs: [],
  code: /* glsl */ `
uniform sampler2D nextPlace;

void main() {
  if (texelFetch(nextPlace, ivec2(gl_FragCoord.xy), 0).w >= 0.0) discard;
}
`,
};
