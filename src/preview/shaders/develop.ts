import type { Chunk } from './chunk.ts';
import { gamut } from './gamut.ts';
import { linearRgb } from './linear-rgb.ts';
import { toneCurve } from './tone-curve.ts';

/**
 * Scene light relative to the camera's zero to linear display light. The white balance is the core's matrix, by rows as it
 * stands there: upload it with `transpose` set.
 */
export const develop: Chunk = {
  name: 'develop',
  needs: [gamut, linearRgb, toneCurve],
  code: /* glsl */ `
vec3 displayColour(mat3 whiteBalance, ToneRange range, vec3 rgb) {
  return withinDisplay(whiteBalance * rgb, toneCurve(range, luminanceOfRgb(rgb)));
}
`,
};
