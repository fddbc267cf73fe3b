import type { Chunk } from './chunk.ts';
import { linearRgb } from './linear-rgb.ts';
import { pixelNumbers } from './pixel-numbers.ts';

/** A pixel's sample, kept by lamp, added to what all samples before have given. */
export function keptSample(sums: number): Chunk {
  const each = (line: (i: number) => string) => Array.from({ length: sums }, (_, i) => line(i)).join('\n');
  return {
    name: 'kept-sample',
    needs: [pixelNumbers, linearRgb],
    code: /* glsl */ `
${each((i) => `uniform sampler2D sumBefore${i};`)}
uniform sampler2D replicatesBefore;
// Samples before the replicates were begun anew.
uniform uint replicatesSince;
// What each sum is multiplied by in the frame, and 1 for those that this sample adds to, and for those that have any.
uniform vec3 sumFactors[SUMS];
uniform float sumsTraced[SUMS];
uniform float sumsBegun[SUMS];

// Linear RGB, and how many samples it is the sum of.
${each((i) => `layout(location = ${i}) out vec4 sum${i};`)}
// Luminance by replicate.
layout(location = ${sums}) out vec4 replicates;

void keepSample(ivec2 pixel) {
${each((i) => `  sum${i} = sumsBegun[${i}] > 0.0 ? texelFetch(sumBefore${i}, pixel, 0) : vec4(0.0);`)}
  replicates = samplesBefore > replicatesSince ? texelFetch(replicatesBefore, pixel, 0) : vec4(0.0);
  vec3 light = vec3(0.0);
  float most = 0.0;
${each(
  (i) => `  keptLight[${i}] *= sumsTraced[${i}];
  light += sumFactors[${i}] * keptLight[${i}];
  most += dot(abs(keptLight[${i}]), vec3(1.0));`,
)}
  // A number that single precision could not hold would spoil the pixel for good: the sample is left out of the count.
  if (!(most < 1e30)) return;
${each((i) => `  sum${i} += vec4(keptLight[${i}], sumsTraced[${i}]);`)}
  uint replicate = samplesBefore % REPLICATES;
  replicates += luminanceOfRgb(light) * vec4(equal(uvec4(replicate), uvec4(0u, 1u, 2u, 3u)));
}
`,
  };
}
