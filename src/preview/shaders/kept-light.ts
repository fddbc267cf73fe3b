import type { Chunk } from './chunk.ts';

/** Light summed by lamp; who gets which sum stands in renderer/light-keeping.ts. */
export function keptLight(sums: number): Chunk {
  return {
    name: 'kept-light',
    needs: [],
    code: /* glsl */ `
const int SUMS = ${sums};
// By lamp: factor and sum; below it how much the lamp counts when one is chosen, and how much of it shines at all.
uniform sampler2D keptTexels;
vec3 keptLight[SUMS];

float lampCounts(int lamp) {
  return texelFetch(keptTexels, ivec2(lamp, 1), 0).r;
}

bool lampShines(int lamp) {
  return texelFetch(keptTexels, ivec2(lamp, 1), 0).g > 0.0;
}

// Light of a lamp, or of the sky where there is none (−1).
void keepLight(int lamp, vec3 light) {
  vec4 kept = lamp < 0 ? vec4(1.0, 1.0, 1.0, 0.0) : texelFetch(keptTexels, ivec2(lamp, 0), 0);
  int sum = int(kept.a);
  // Written out: places that are chosen while running make some drivers keep the whole list in slow memory.
${Array.from({ length: sums }, (_, i) => `  if (sum == ${i}) keptLight[${i}] += kept.rgb * light;`).join('\n')}
}
`,
  };
}
