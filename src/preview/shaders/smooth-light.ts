import type { Chunk } from './chunk.ts';
import { linearRgb } from './linear-rgb.ts';

/**
 * One pass of a filter for the live view: an average over places at growing distances (the wavelet "with holes" of Dammertz
 * et al., High Performance Graphics 2010), which stops at edges of things and where light differs by more than its noise
 * (as in Schied et al., HPG 2017). It spreads light a little and is never measured.
 */
export const smoothLight: Chunk = {
  name: 'smooth-light',
  needs: [linearRgb],
  code: /* glsl */ `
// Alpha is the variance of the luminance.
uniform sampler2D light;
uniform sampler2D normalAndPart;
uniform ivec2 frameSize;
// Pixels between the places.
uniform int apart;

layout(location = 0) out vec4 smoothed;

const float NOISES = 3.0;

void main() {
  ivec2 pixel = ivec2(gl_FragCoord.xy);
  vec4 here = texelFetch(light, pixel, 0);
  vec4 guide = texelFetch(normalAndPart, pixel, 0);
  float part = guide.w;
  float Y = luminanceOfRgb(here.rgb);
  float variance = here.a;
  // A pixel's own spread tells little of its noise; that of its neighbours is taken with it, until it has been averaged.
  if (apart == 1) {
    variance = 0.0;
    for (int k = 0; k < 9; k++) {
      ivec2 at = clamp(pixel + ivec2(k % 3 - 1, k / 3 - 1), ivec2(0), frameSize - 1);
      variance += texelFetch(light, at, 0).a / 9.0;
    }
  }
  float noise = NOISES * sqrt(variance) + 1e-4 * Y + 1e-12;
  vec3 sum = here.rgb;
  float weights = 1.0;
  float spread = here.a;
  for (int k = 0; k < 25; k++) {
    ivec2 step = ivec2(k % 5 - 2, k / 5 - 2);
    int squared = step.x * step.x + step.y * step.y;
    // The corners of the square would count next to nothing.
    if (squared == 0 || squared > 4) continue;
    ivec2 at = pixel + apart * step;
    if (any(lessThan(at, ivec2(0))) || any(greaterThanEqual(at, frameSize))) continue;
    vec4 guideThere = texelFetch(normalAndPart, at, 0);
    if (guideThere.w != part) continue;
    vec4 there = texelFetch(light, at, 0);
    float alike = part < 0.0 ? 1.0 : pow(max(0.0, dot(guide.xyz, guideThere.xyz)), 48.0);
    float near = exp2(-0.6 * float(squared));
    float w = near * alike * exp(-abs(luminanceOfRgb(there.rgb) - Y) / noise);
    sum += w * there.rgb;
    weights += w;
    spread += w * w * there.a;
  }
  smoothed = vec4(sum / weights, spread / (weights * weights));
}
`,
};
