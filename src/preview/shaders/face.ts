import type { Chunk } from './chunk.ts';
import { circle } from './circle.ts';
import { pi } from './pi.ts';

/** The emitting face of a lamp, in its own plane: r to the right, t to the top. */
export const face: Chunk = {
  name: 'face',
  needs: [pi, circle],
  code: /* glsl */ `
const int DISC = 0;
const int RECTANGLE = 1;
const int OCTAGON = 2;

struct Face {
  int shape;
  // Radius of a disc; half the sides of a rectangle, along r and t; apothem of an octagon.
  vec2 size;
};

const float TAN_22_5 = 0.414213562373095;

float faceArea_m2(Face face) {
  if (face.shape == RECTANGLE) return 4.0 * face.size.x * face.size.y;
  return face.size.x * face.size.x * (face.shape == DISC ? PI : 8.0 * TAN_22_5);
}

// The radius of the smallest circle about the centre that holds the face.
float faceRadius_m(Face face) {
  if (face.shape == DISC) return face.size.x;
  return face.shape == RECTANGLE ? length(face.size) : face.size.x * ${Math.hypot(1, Math.SQRT2 - 1)};
}

// Equal areas of the unit square to equal areas of the face; metres along r and t.
vec2 placeOnFace(Face face, float u, float v) {
  vec2 s = 2.0 * vec2(u, v) - 1.0;
  if (face.shape == RECTANGLE) return s * face.size;
  if (face.shape == DISC) {
    if (s == vec2(0.0)) return vec2(0.0);
    if (abs(s.x) > abs(s.y)) return face.size.x * s.x * smallAngle(PI / 4.0 * (s.y / s.x));
    return face.size.x * s.y * smallAngle(PI / 4.0 * (s.x / s.y)).yx;
  }
  float sector = min(7.0, floor(8.0 * u));
  float outward = face.size.x * sqrt(8.0 * u - sector);
  float across = outward * TAN_22_5 * s.y;
  vec2 d = unitCircle(sector / 8.0);
  return outward * d + across * vec2(-d.y, d.x);
}
`,
};
