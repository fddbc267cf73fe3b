import type { Chunk } from './chunk.ts';

/** A camera's rays. */
export const thinLens: Chunk = {
  name: 'thin-lens',
  needs: [],
  code: /* glsl */ `
struct ThinLens {
  vec3 position;
  vec3 forward;
  vec3 right;
  vec3 up;
  // Half the picture at unit distance, across and up.
  float halfWidth;
  float halfHeight;
  float pupil_m;
  float focus_m;
};

// The ray through a place in the frame (u to the right, v down) and a point of the pupil, in units of its radius.
void aimThrough(ThinLens lens, float u, float v, float pupilX, float pupilY, out vec3 o, out vec3 d) {
  vec2 image = vec2((2.0 * u - 1.0) * lens.halfWidth, (1.0 - 2.0 * v) * lens.halfHeight);
  vec2 pupil = lens.pupil_m * vec2(pupilX, pupilY);
  o = lens.position + pupil.x * lens.right + pupil.y * lens.up;
  // All rays through one place of the frame meet in the plane of focus.
  vec2 k = image - pupil / lens.focus_m;
  d = normalize(lens.forward + k.x * lens.right + k.y * lens.up);
}
`,
};
