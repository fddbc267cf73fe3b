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
  return texelFetch(tableTexels, ivec2((i >> 2) & ${(1 << ROW_BITS) - 1}, i >> ${ROW_BITS + 2}), 0)[i & 3];
}
`,
};
