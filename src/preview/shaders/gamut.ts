import type { Chunk } from './chunk.ts';
import { linearRgb } from './linear-rgb.ts';

/** The colour of light as a display can show it at a luminance; how and why in the core's module. */
export const gamut: Chunk = {
  name: 'gamut',
  needs: [linearRgb],
  code: /* glsl */ `
const float WHOLE_COLOUR = 0.6;

float softened(float r) {
  float t = (r - WHOLE_COLOUR) / (1.0 - WHOLE_COLOUR);
  return WHOLE_COLOUR + (1.0 - WHOLE_COLOUR) * (1.0 - 1.0 / (1.0 + t));
}

vec3 withinDisplay(vec3 rgb, float luminance) {
  float y = clamp(luminance, 0.0, 1.0);
  float Y = luminanceOfRgb(rgb);
  if (y == 0.0 || y == 1.0 || !(Y > 0.0)) return vec3(y);
  vec3 scaled = rgb * (y / Y);
  float least = min(scaled.r, min(scaled.g, scaled.b));
  float most = max(scaled.r, max(scaled.g, scaled.b));
  float positive = least < 0.0 ? y / (y - least) : 1.0;
  float r = positive * (most - y) / (1.0 - y);
  float kept = positive * (r > WHOLE_COLOUR ? softened(r) / r : 1.0);
  return y + kept * (scaled - y);
}
`,
};
