import { albedoAt } from './directional-albedo.ts';
import { conductorReflectance, dielectricReflectance } from './fresnel.ts';
import { normalDensity, reflectionDensity, visibility } from './ggx.ts';
import type { SurfaceOptics } from './surface-optics.ts';

/** The base, the coat's or metal's lobe, or both. */
export type LobeChoice = 'all' | 'diffuse' | 'glossy';

/**
 * Writes f, 1/sr, in linear R, G, B (model and conventions in surface-optics.ts), not times the cosine. Zero where
 * either direction is not above the surface. Allocates nothing.
 */
export function evaluateSurface(
  optics: SurfaceOptics,
  ix: number,
  iy: number,
  iz: number,
  ox: number,
  oy: number,
  oz: number,
  which: LobeChoice,
  out: Float64Array,
): void {
  const diffuse = which === 'glossy' ? 0 : baseShare(optics, iz, oz) / Math.PI;
  const { baseRgb } = optics;
  let r = baseRgb[0]! * diffuse;
  let g = baseRgb[1]! * diffuse;
  let b = baseRgb[2]! * diffuse;
  if (which !== 'diffuse' && optics.glossy && iz > 0 && oz > 0) {
    const hx = ix + ox;
    const hy = iy + oy;
    const hz = iz + oz;
    const l = Math.sqrt(hx * hx + hy * hy + hz * hz);
    const DV = normalDensity(optics.alpha, hx / l, hy / l, hz / l) * visibility(optics.alpha, iz, oz);
    // i·h = o·h = |i + o|/2 for unit i and o, and the same for both to the last bit.
    const cosTheta = Math.min(1, 0.5 * l);
    if (optics.kind === 'coated') {
      const glossy = dielectricReflectance(cosTheta, optics.coatIor) * DV;
      r += glossy;
      g += glossy;
      b += glossy;
    } else {
      const { metalN, metalK } = optics;
      r += conductorReflectance(cosTheta, metalN[0]!, metalK[0]!) * DV;
      g += conductorReflectance(cosTheta, metalN[1]!, metalK[1]!) * DV;
      b += conductorReflectance(cosTheta, metalN[2]!, metalK[2]!) * DV;
    }
  }
  out[0] = r;
  out[1] = g;
  out[2] = b;
}

/**
 * What the coat leaves of ρ/π: (1 − E(θ_i))(1 − E(θ_o))/(1 − Ē); 1 without a coat, 0 for a metal and where either
 * direction is not above the surface.
 */
export function baseShare(optics: SurfaceOptics, cosI: number, cosO: number): number {
  if (!(cosI > 0 && cosO > 0)) return 0;
  if (optics.kind !== 'coated') return optics.baseScale;
  const coat = optics.albedo[0]!;
  return optics.baseScale * ((1 - albedoAt(coat, cosI)) * (1 - albedoAt(coat, cosO)));
}

/**
 * Density over solid angle, 1/sr, with which `sampleSurface` draws i for o from one of its lobes, the chance of the lobe
 * included. Zero where either direction is not above the surface; over both lobes the integral is 1 less the chance that
 * a reflection ends below the surface. Allocates nothing.
 */
export function lobePdf(
  optics: SurfaceOptics,
  ix: number,
  iy: number,
  iz: number,
  ox: number,
  oy: number,
  oz: number,
  fromGlossy: boolean,
): number {
  if (!(iz > 0 && oz > 0)) return 0;
  const share = glossyShare(optics, oz);
  if (!fromGlossy) return ((1 - share) * iz) / Math.PI;
  if (share === 0) return 0;
  const hx = ix + ox;
  const hy = iy + oy;
  const hz = iz + oz;
  const l = Math.sqrt(hx * hx + hy * hy + hz * hz);
  return share * reflectionDensity(optics.alpha, hx / l, hy / l, hz / l, oz);
}

/**
 * Chance that `sampleSurface` draws from the coat's or metal's lobe: its part of the reflected luminance, E against
 * ρ(1 − E).
 */
export function glossyShare(optics: SurfaceOptics, cosO: number): number {
  if (optics.kind !== 'coated') return optics.glossy ? 1 : 0;
  const E = albedoAt(optics.albedo[0]!, cosO);
  const base = optics.baseLuminance * (1 - E);
  return base > 0 ? E / (E + base) : 1;
}
