import type { Chunk } from './chunk.ts';

/**
 * The light of a frame so far, of all lamps as they are now: means of the sums, mixed. Alpha is the variance of its luminance
 * by the spread of the replicates, −1 where they cannot tell.
 */
export function mixLight(sums: number): Chunk {
  const each = (line: (i: number) => string) => Array.from({ length: sums }, (_, i) => line(i)).join('\n');
  return {
    name: 'mix-light',
    needs: [],
    code: /* glsl */ `
${each((i) => `uniform sampler2D sum${i};`)}
uniform sampler2D replicates;
uniform vec3 sumFactors[${sums}];
// Samples of each replicate; of how much of the error of their mean is left with all samples.
uniform vec4 replicateSamples;
uniform float errorShare;

layout(location = 0) out vec4 light;

void main() {
  ivec2 pixel = ivec2(gl_FragCoord.xy);
  light = vec4(0.0, 0.0, 0.0, -1.0);
  vec4 sum;
${each((i) => `  sum = texelFetch(sum${i}, pixel, 0);\n  if (sum.a > 0.0) light.rgb += sumFactors[${i}] * sum.rgb / sum.a;`)}
  if (replicateSamples.w > 0.0) {
    vec4 means = texelFetch(replicates, pixel, 0) / replicateSamples;
    vec4 apart = means - dot(means, vec4(0.25));
    light.a = dot(apart, apart) / 12.0 * errorShare * errorShare;
  }
}
`,
  };
}
