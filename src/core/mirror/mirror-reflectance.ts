import type { Lamp } from '../light-model/light-model.ts';
import type { Vec3 } from '../math/vec3.ts';
import { LUMINANCE_WEIGHTS, linearRgbFromXyz } from '../picture/linear-rgb.ts';
import {
  conductorPolarised,
  conductorReflectance,
  dielectricPolarised,
  dielectricReflectance,
  type PolarisedReflectance,
} from '../surfaces/fresnel.ts';
import type { SurfaceOptics } from '../surfaces/surface-optics.ts';

/**
 * Luminous reflectance of a coat or a bare metal at an angle, exact (`fresnel.ts`). A metal's differs for red, green and
 * blue: each is weighed by what it has in the luminance of the lamp's light. A matt surface mirrors nothing.
 */
export function polarisedReflectance(
  optics: SurfaceOptics,
  inLamp: Vec3,
  cosTheta: number,
): PolarisedReflectance {
  if (optics.kind === 'matt') return { s: 0, p: 0 };
  if (optics.kind === 'coated') return dielectricPolarised(cosTheta, optics.coatIor);
  let [s, p] = [0, 0];
  for (let c = 0; c < 3; c++) {
    const R = conductorPolarised(cosTheta, optics.metalN[c]!, optics.metalK[c]!);
    s += inLamp[c]! * R.s;
    p += inLamp[c]! * R.p;
  }
  return { s, p };
}

/** The same of unpolarised light; allocates nothing. */
export function mirrorReflectance(optics: SurfaceOptics, inLamp: Vec3, cosTheta: number): number {
  if (optics.kind === 'matt') return 0;
  if (optics.kind === 'coated') return dielectricReflectance(cosTheta, optics.coatIor);
  let R = 0;
  for (let c = 0; c < 3; c++)
    R += inLamp[c]! * conductorReflectance(cosTheta, optics.metalN[c]!, optics.metalK[c]!);
  return R;
}

/** Parts that red, green and blue have in the luminance of a lamp's light; they add up to 1. */
export function luminousParts({ colour_XYZ }: Lamp): Vec3 {
  const [r, g, b] = linearRgbFromXyz(colour_XYZ);
  return [r * LUMINANCE_WEIGHTS[0], g * LUMINANCE_WEIGHTS[1], b * LUMINANCE_WEIGHTS[2]];
}
