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
uniform sampler2D normalAndOwner;
uniform sampler2D distanceAndPart;
uniform ivec2 frameSize;
// Pixels between the places.
uniform int apart;

layout(location = 0) out vec4 smoothed;

const float NOISES = 3.0;

void main() {
  ivec2 pixel = ivec2(gl_FragCoord.xy);
  vec4 here = texelFetch(light, pixel, 0);
  vec3 normal = texelFetch(normalAndOwner, pixel, 0).xyz;
  float part = texelFetch(distanceAndPart, pixel, 0).y;
  float Y = luminanceOfRgb(here.rgb);
  // A pixel's own spread tells little of its noise; that of its neighbours is taken with it.
  float variance = 0.0;
  for (int k = 0; k < 9; k++) {
    ivec2 at = clamp(pixel + ivec2(k % 3 - 1, k / 3 - 1), ivec2(0), frameSize - 1);
    variance += texelFetch(light, at, 0).a / 9.0;
  }
  float noise = NOISES * sqrt(variance) + 1e-4 * Y + 1e-12;
  vec3 sum = vec3(0.0);
  float weights = 0.0;
  float spread = 0.0;
  for (int k = 0; k < 25; k++) {
    ivec2 step = ivec2(k % 5 - 2, k / 5 - 2);
    ivec2 at = pixel + apart * step;
    if (any(lessThan(at, ivec2(0))) || any(greaterThanEqual(at, frameSize))) continue;
    if (texelFetch(distanceAndPart, at, 0).y != part) continue;
    vec4 there = texelFetch(light, at, 0);
    float alike = part < 0.0 ? 1.0 : pow(max(0.0, dot(normal, texelFetch(normalAndOwner, at, 0).xyz)), 48.0);
    float near = exp2(-0.7 * float(step.x * step.x + step.y * step.y));
    float w = near * alike * exp(-abs(luminanceOfRgb(there.rgb) - Y) / noise);
    sum += w * there.rgb;
    weights += w;
    spread += w * w * there.a;
  }
  smoothed = vec4(sum / weights, spread / (weights * weights));
}
`,
};
