import { faceArea_m2 } from '../lamps/face.ts';
import { type Emitter, emitted_cd } from '../transport/lamp-sight.ts';

/** Edge-on a face shows nothing: below this cosine I/(A·cos γ) means nothing either. */
const LEAST_COSINE = 1e-4;

/**
 * Luminance, cd/m², of a lamp's face toward a direction w, unit, away from the lamp: I(w)/(A·cos γ). Every point of the face
 * sends out the whole distribution, so it is the same all over the face and at every distance.
 */
export function faceLuminance_cd_m2(emitter: Emitter, wx: number, wy: number, wz: number): number {
  const { a, face } = emitter;
  const cosGamma = wx * a[0] + wy * a[1] + wz * a[2];
  return cosGamma < LEAST_COSINE ? 0 : emitted_cd(emitter, wx, wy, wz) / (faceArea_m2(face) * cosGamma);
}
