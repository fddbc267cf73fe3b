/**
 * The black-body curve in CIE 1960 u, v as a function of M = 10⁶/T, with its direction of travel.
 * From the same 5 nm sums as every other colour here, so that a black body measures exactly its own temperature.
 * Known error against 1 nm sums over 360–830 nm, nearly all from stopping at 380 and 780 nm: below 5·10⁻⁵ in u and v from
 * 1000 to 25 000 K; in temperature below 0.2 mired (1.3 K at 6500 K, 0.5 K at 5200 K).
 */
import { X_BAR, Y_BAR, Z_BAR } from './observer.ts';
import { C2_M_K } from './planck.ts';
import { SAMPLES, WAVELENGTHS_NM } from './wavelengths.ts';

export interface LocusPoint {
  readonly u: number;
  readonly v: number;
  /** Derivatives with respect to mired. */
  readonly du: number;
  readonly dv: number;
}

/** x = c₂·M·10⁻⁶/λ for M = 1, and (λ in µm)⁻⁵, per grid wavelength. */
const X_PER_MIRED = WAVELENGTHS_NM.map((nm) => (C2_M_K * 1e-6) / (nm * 1e-9));
const FIFTH_POWER = WAVELENGTHS_NM.map((nm) => (nm * 1e-3) ** -5);

/** The black body of 10⁶/`mired` kelvin. `mired` must be above zero. */
export function planckianUv(mired: number): LocusPoint {
  let [X, Y, Z] = [0, 0, 0];
  let [dX, dY, dZ] = [0, 0, 0];
  for (let i = 0; i < SAMPLES; i++) {
    const perMired = X_PER_MIRED[i]!;
    const x = perMired * mired;
    const S = FIFTH_POWER[i]! / Math.expm1(x);
    const dS = (S * perMired) / Math.expm1(-x);
    X += S * X_BAR[i]!;
    Y += S * Y_BAR[i]!;
    Z += S * Z_BAR[i]!;
    dX += dS * X_BAR[i]!;
    dY += dS * Y_BAR[i]!;
    dZ += dS * Z_BAR[i]!;
  }
  const D = X + 15 * Y + 3 * Z;
  const dD = dX + 15 * dY + 3 * dZ;
  const u = (4 * X) / D;
  const v = (6 * Y) / D;
  return { u, v, du: (4 * dX - u * dD) / D, dv: (6 * dY - v * dD) / D };
}
