import type { Chunk } from './chunk.ts';
import { everyFeature } from './features.ts';
import { packedHaze } from './packed-haze.ts';
import { packedLamps } from './packed-lamps.ts';
import { hazeTransmittance } from './transmittance.ts';

/** A point of a lamp's face as seen from somewhere, and what it shines there with nothing in the way. */
export const lampSight: Chunk = {
  name: 'lamp-sight',
  needs: [everyFeature, packedLamps, packedHaze, hazeTransmittance],
  code: /* glsl */ `
struct LampSight {
  // The point of the face.
  vec3 s;
  // Unit direction toward it, and how far it is.
  vec3 w;
  float d_m;
  // Illuminance square to that direction, standing for the whole face; haze on the way taken off.
  float normal_lx;
};

// Candela along a unit direction that leaves the lamp.
float emitted_cd(Emitter emitter, vec3 w) {
  return emitter.gain * intensityToward(emitter.distribution, dot(w, emitter.r), dot(w, emitter.t), dot(w, emitter.a));
}

void choosePoint(Emitter emitter, float u, float v, inout LampSight sight) {
  vec2 at = placeOnFace(emitter.face, u, v);
  sight.s = emitter.origin + at.x * emitter.r + at.y * emitter.t;
}

void seePoint(Emitter emitter, vec3 p, inout LampSight sight) {
  vec3 d = sight.s - p;
  float d2 = max(1e-18, dot(d, d));
  sight.d_m = sqrt(d2);
  sight.w = d / sight.d_m;
  float E = emitted_cd(emitter, -sight.w) / d2;
#if HAS_HAZE
  E *= hazeTransmittance(p, sight.w, sight.d_m);
#endif
  sight.normal_lx = E;
}
`,
};
