import type { Chunk } from './chunk.ts';
import { faceHit } from './face-hit.ts';
import { lampSight } from './lamp-sight.ts';
import { surfaceLamps } from './surface-lamps.ts';

/** Lamp faces that a camera's ray meets. */
export const seenLamp: Chunk = {
  name: 'seen-lamp',
  needs: [lampSight, faceHit, surfaceLamps],
  code: /* glsl */ `
// Edge-on a face shows nothing.
const float LEAST_FACE_COSINE = 1e-4;

// Whether a ray meets the front of a lit lamp's face within 0..D: then D is where and seen the lamp. After a reflection in a
// surface of that α (none below 0), only lamps that such a ray is meant to find.
bool seesLamp(vec3 o, vec3 d, float mirrorAlpha, inout float D, out int seen) {
  seen = -1;
  int i = 0;
  do {
    int lamp = litLampAt(i).lamp;
    Emitter emitter = emitterAt(lamp);
    float cosGamma = -dot(d, emitter.a);
    vec3 g = o - emitter.origin;
    float t = dot(g, emitter.a) / max(LEAST_FACE_COSINE, cosGamma);
    vec3 h = g + t * d;
    if (
      cosGamma >= LEAST_FACE_COSINE && t > 0.0 && t < D && onFace(emitter.face, dot(h, emitter.r), dot(h, emitter.t)) &&
      lampShines(lamp) && (mirrorAlpha < 0.0 || lobeFindsLamp(mirrorAlpha, faceRadius_m(emitter.face), t))
    ) {
      seen = lamp;
      D = t;
    }
  } while (++i < litLampsAt.x);
  return seen >= 0;
}

// The radiance of a lamp's face that is seen along d, haze not taken off.
vec3 seenRadiance(int lamp, vec3 d) {
  Emitter emitter = emitterAt(lamp);
  return lampRgb(lamp) * emitted_cd(emitter, -d) / (faceArea_m2(emitter.face) * -dot(d, emitter.a));
}
`,
};
