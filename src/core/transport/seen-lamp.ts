import { faceArea_m2, faceRadius_m } from '../lamps/face.ts';
import { onFace } from '../lamps/face-hit.ts';
import type { SurfaceOptics } from '../surfaces/surface-optics.ts';
import { emitted_cd } from './lamp-sight.ts';
import { lobeFindsLamp } from './surface-lamps.ts';
import type { Tracer } from './tracer.ts';

/** The nearest lamp face on a ray, and its radiance toward the ray's start as linear RGB (cd/m²), haze not yet taken off. */
export interface SeenLamp {
  lamp: number;
  d_m: number;
  r: number;
  g: number;
  b: number;
}

export function newSeenLamp(): SeenLamp {
  return { lamp: -1, d_m: 0, r: 0, g: 0, b: 0 };
}

/** Edge-on a face shows nothing: below this cosine its luminance I/(A·cos γ) means nothing either. */
const LEAST_COSINE = 1e-4;

/**
 * Whether a ray meets the front of a lit lamp's face within 0..D. Every point of a face sends out the whole distribution,
 * so its luminance is L = gain·I(ω)/(A·cos γ). After a reflection in `mirror`, only lamps that such a ray is meant to find.
 */
export function seesLamp(
  tracer: Tracer,
  ox: number,
  oy: number,
  oz: number,
  dx: number,
  dy: number,
  dz: number,
  D: number,
  mirror: SurfaceOptics | null,
  seen: SeenLamp,
): boolean {
  seen.lamp = -1;
  seen.d_m = D;
  for (const index of tracer.litLamps) {
    const { face, a, r, t, origin_m } = tracer.emitters[index]!;
    const cosGamma = -(dx * a[0] + dy * a[1] + dz * a[2]);
    if (cosGamma < LEAST_COSINE) continue;
    const [gx, gy, gz] = [ox - origin_m[0], oy - origin_m[1], oz - origin_m[2]];
    const d = (gx * a[0] + gy * a[1] + gz * a[2]) / cosGamma;
    if (d <= 0 || d >= seen.d_m) continue;
    const [hx, hy, hz] = [gx + d * dx, gy + d * dy, gz + d * dz];
    if (!onFace(face, hx * r[0] + hy * r[1] + hz * r[2], hx * t[0] + hy * t[1] + hz * t[2])) continue;
    if (mirror && !lobeFindsLamp(mirror, faceRadius_m(face), d)) continue;
    seen.lamp = index;
    seen.d_m = d;
  }
  if (seen.lamp < 0) return false;
  const emitter = tracer.emitters[seen.lamp]!;
  const { a, face } = emitter;
  const cosGamma = -(dx * a[0] + dy * a[1] + dz * a[2]);
  const L = emitted_cd(emitter, -dx, -dy, -dz) / (faceArea_m2(face) * cosGamma);
  seen.r = L * tracer.lampRgb[3 * seen.lamp]!;
  seen.g = L * tracer.lampRgb[3 * seen.lamp + 1]!;
  seen.b = L * tracer.lampRgb[3 * seen.lamp + 2]!;
  return true;
}
