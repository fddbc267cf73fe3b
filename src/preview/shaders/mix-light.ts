import type { Chunk } from './chunk.ts';
import { linearRgb } from './linear-rgb.ts';

/**
 * The light of a frame so far, of all lamps as they are now: means of the sums, mixed, each as large as the frame or coarser.
 * Alpha is the variance of its luminance by the spread of the replicates; where they cannot tell yet, it is guessed.
 */
export function mixLight(sums: number): Chunk {
  const each = (line: (i: number) => string) => Array.from({ length: sums }, (_, i) => line(i)).join('\n');
  return {
    name: 'mix-light',
    needs: [linearRgb],
    code: /* glsl */ `
${each((i) => `uniform sampler2D sum${i};`)}
uniform sampler2D replicates;
uniform ivec2 frameSize;
uniform vec3 sumFactors[${sums}];
// Samples of each replicate; of how much of the error of their mean is left with all samples.
uniform vec4 replicateSamples;
uniform float errorShare;

layout(location = 0) out vec4 light;

// Of one sample's luminance, as a part of it: what frames begin with.
const float FIRST_NOISE = 0.7;

vec4 texelOf(sampler2D sum) {
  return texelFetch(sum, ivec2(gl_FragCoord.xy) * textureSize(sum, 0) / frameSize, 0);
}

void main() {
  ivec2 pixel = ivec2(gl_FragCoord.xy);
  light = vec4(0.0);
  vec4 sum;
${each(
  (i) => `  sum = texelOf(sum${i});
  if (sum.a > 0.0) {
    vec3 mean = sumFactors[${i}] * sum.rgb / sum.a;
    float noise = FIRST_NOISE * luminanceOfRgb(mean);
    light += vec4(mean, noise * noise / sum.a);
  }`,
)}
  if (replicateSamples.w > 0.0) {
    vec4 means = texelFetch(replicates, pixel, 0) / replicateSamples;
    vec4 apart = means - dot(means, vec4(0.25));
    light.a = dot(apart, apart) / 12.0 * errorShare * errorShare;
  }
}
`,
  };
}
