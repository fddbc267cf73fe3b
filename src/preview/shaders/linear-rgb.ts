import { LUMINANCE_WEIGHTS } from '../../core/picture/linear-rgb.ts';
import type { Chunk } from './chunk.ts';
import { glslVec } from './glsl-number.ts';

/** Luminance of linear RGB. */
export const linearRgb: Chunk = {
  name: 'linear-rgb',
  needs: [],
  code: /* glsl */ `
float luminanceOfRgb(vec3 rgb) {
  return dot(${glslVec(LUMINANCE_WEIGHTS)}, rgb);
}
`,
};
