import type { Chunk } from './chunk.ts';

/** Grey from linear RGB by weights whose sum is 1. */
export const channelMix: Chunk = {
  name: 'channel-mix',
  needs: [],
  code: /* glsl */ `
float channelMix(vec3 unitWeights, vec3 balanced) {
  return dot(unitWeights, balanced);
}
`,
};
