import { ROW_BITS } from '../pack/texels.ts';
import type { Chunk } from './chunk.ts';
import { sections } from './sections.ts';

/** The textures of lights and surfaces and of curves (pack/layout.ts). */
export const packedLight: Chunk = {
  name: 'packed-light',
  needs: [sections],
  code: /* glsl */ `
uniform sampler2D lightTexels;
uniform sampler2D tableTexels;

vec4 lightTexel(int i) {
  return texelFetch(lightTexels, texelPlace(i), 0);
}

// The i-th entry of all curves.
float tableEntry(int i) {
  vec4 four = texelFetch(tableTexels, ivec2((i >> 2) & ${(1 << ROW_BITS) - 1}, i >> ${ROW_BITS + 2}), 0);
  // Written out: components that are chosen while running make some drivers keep the texel in slow memory.
  vec2 two = (i & 2) == 0 ? four.xy : four.zw;
  return (i & 1) == 0 ? two.x : two.y;
}
`,
};
