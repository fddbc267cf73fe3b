import { FALSE_COLOUR_SCALE } from '../../core/picture/false-colour.ts';
import type { Chunk } from './chunk.ts';
import { glslVec } from './glsl-number.ts';
import { linearRgb } from './linear-rgb.ts';

const LOWEST = FALSE_COLOUR_SCALE[0]!.to_stops + 0.5;
const LAST = FALSE_COLOUR_SCALE.length - 1;

/** False colour in stops from the camera's zero, by the core's scale; colours as a picture stores them, 0 to 1. */
export const falseColour: Chunk = {
  name: 'false-colour',
  needs: [linearRgb],
  code: /* glsl */ `
const vec3 FALSE_COLOURS[${LAST + 1}] = vec3[${LAST + 1}](
${FALSE_COLOUR_SCALE.map(({ rgb }) => `  ${glslVec(rgb)}`).join(',\n')}
);

vec3 falseColourOf(float stops) {
  int i = int(clamp(floor(stops + 0.5) + ${1 - LOWEST}.0, 0.0, ${LAST}.0));
  return FALSE_COLOURS[i] / 255.0;
}

// By luminance relative to the camera's zero, before white balance.
vec3 falseColour(vec3 rgb) {
  float L = luminanceOfRgb(rgb);
  return falseColourOf(L > 0.0 ? log2(L) : -1e4);
}
`,
};
