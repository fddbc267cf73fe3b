import type { Chunk } from './chunk.ts';
import { thinLens } from './thin-lens.ts';

/** The camera of a frame, and which part of the whole picture this frame is; rows run downward in the picture. */
export const viewOfCamera: Chunk = {
  name: 'view-of-camera',
  needs: [thinLens],
  code: /* glsl */ `
uniform vec3 lensPosition;
uniform vec3 lensForward;
uniform vec3 lensRight;
uniform vec3 lensUp;
// Half the picture's width and height at unit distance, radius of the pupil, distance in focus.
uniform vec4 lensNumbers;
// Pixels of the whole picture, and where in it this frame begins.
uniform ivec2 wholeSize;
uniform ivec2 partAt;

ivec2 pixelOfWhole() {
  return ivec2(gl_FragCoord.xy) + partAt;
}

// The ray through a place within this pixel (0 to 1) and a point of the pupil (within the unit circle).
void rayOfCamera(vec2 within, vec2 pupil, out vec3 o, out vec3 d) {
  vec2 place = (vec2(pixelOfWhole()) + within) / vec2(wholeSize);
  ThinLens lens = ThinLens(lensPosition, lensForward, lensRight, lensUp, lensNumbers.x, lensNumbers.y, lensNumbers.z, lensNumbers.w);
  aimThrough(lens, place.x, place.y, pupil.x, pupil.y, o, d);
}
`,
};
