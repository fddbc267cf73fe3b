import { albedoAt } from './directional-albedo.ts';
import type { SurfaceOptics } from './surface-optics.ts';

/**
 * The share of light from one direction that the surface reflects into all: writes linear R, G, B, each 0..1.
 * ρ, E + ρ(1 − E) or E of the model in surface-optics.ts, within the error of its tables.
 */
export function surfaceAlbedo(optics: SurfaceOptics, cosTheta: number, out: Float64Array): void {
  const { kind, albedo, baseRgb } = optics;
  for (let c = 0; c < 3; c++) {
    const E = kind === 'matt' ? 0 : albedoAt(albedo[kind === 'coated' ? 0 : c]!, cosTheta);
    out[c] = E + baseRgb[c]! * (1 - E);
  }
}
