/**
 * How a diffuser scatters a ray: p(δ) = (m + 1)/(2π)·cos^m δ per steradian for δ < 90° from the straight direction, and
 * nothing beyond; ∫ p dΩ = 1. m = ln ½/ln cos(spread/2), so that p has fallen to half at half the spread: 120° is
 * Lambert's m = 1. Model of our own; no source for the shape. Valid for 2° ≤ spread ≤ 180°.
 */
import { radiansFromDegrees } from '../math/angle.ts';
import { adaptiveIntegral } from './adaptive-integral.ts';

export interface ScatteringLobe {
  /** Full angle at half strength. */
  readonly spread_deg: number;
  readonly exponent: number;
  /** p(0). */
  readonly peak_per_sr: number;
  /** cos δ where p has fallen to a millionth of its peak. */
  readonly cosReach: number;
}

const NEGLIGIBLE_SHARE = 1e-6;
const RELATIVE_TOLERANCE = 1e-3;

/** The lobe of a spread, the full angle at half strength. RangeError outside 2–180°. */
export function scatteringLobe(spread_deg: number): ScatteringLobe {
  if (!(spread_deg >= 2 && spread_deg <= 180)) {
    throw new RangeError(
      `spread of the diffusion is ${spread_deg}; give the full angle at half strength, 2° to 180°`,
    );
  }
  const exponent = Math.log(0.5) / Math.log(Math.cos(radiansFromDegrees(spread_deg / 2)));
  return {
    spread_deg,
    exponent,
    peak_per_sr: (exponent + 1) / (2 * Math.PI),
    cosReach: NEGLIGIBLE_SHARE ** (1 / exponent),
  };
}

/** p(δ), per steradian. */
export function lobe_per_sr(lobe: ScatteringLobe, cosDelta: number): number {
  return cosDelta > 0 ? lobe.peak_per_sr * cosDelta ** lobe.exponent : 0;
}

/**
 * Mean of p over a ring of directions about the axis: (1/π) ∫ p(δ) dφ over 0…π with
 * cos δ = cos γ cos γ′ + sin γ sin γ′ cos φ, γ to the point looked from, γ′ to the ring. Good to about 1e-5 of the peak.
 */
export function meanLobeOnRing_per_sr(lobe: ScatteringLobe, gamma_rad: number, ring_rad: number): number {
  const A = Math.cos(gamma_rad) * Math.cos(ring_rad);
  const B = Math.sin(gamma_rad) * Math.sin(ring_rad);
  if (A + B <= lobe.cosReach) return 0;
  const within = A - B >= lobe.cosReach ? Math.PI : Math.acos((lobe.cosReach - A) / B);
  const agreement = { relative: RELATIVE_TOLERANCE, absolute: NEGLIGIBLE_SHARE * lobe.peak_per_sr };
  return adaptiveIntegral((phi) => lobe_per_sr(lobe, A + B * Math.cos(phi)), 0, within, agreement) / Math.PI;
}
