import type { Chunk } from './chunk.ts';
import { face } from './face.ts';

/** Whether a point of the face's plane lies on the face. */
export const faceHit: Chunk = {
  name: 'face-hit',
  needs: [face],
  code: /* glsl */ `
bool onFace(Face face, float r_m, float t_m) {
  if (face.shape == DISC) return r_m * r_m + t_m * t_m <= face.size.x * face.size.x;
  float r = abs(r_m);
  float t = abs(t_m);
  if (face.shape == RECTANGLE) return r <= face.size.x && t <= face.size.y;
  return max(max(r, t), (r + t) * ${Math.SQRT1_2}) <= face.size.x;
}
`,
};
