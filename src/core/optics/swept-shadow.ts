/**
 * The shadow of someone who walks between a lamp and a mark. From a small lamp a body at distance d throws on things at
 * distance D a shadow D/d times as wide, which runs D/d times as fast. Similar triangles; sharp shadows only (a lamp as
 * wide as the body has none), a walk across the light.
 */
import { nonNegative, positive } from '../units/quantity.ts';

export interface ShadowPass {
  readonly bodyWidth_m: number;
  readonly speed_m_per_s: number;
  readonly lampToBody_m: number;
  readonly lampToMark_m: number;
  /** Width of what is shaded, a face for one. */
  readonly markWidth_m: number;
}

export interface SweptShadow {
  readonly width_m: number;
  readonly speed_m_per_s: number;
  /** From the first touch to the last. */
  readonly duration_s: number;
}

export function sweptShadow(pass: ShadowPass): SweptShadow {
  const enlarged =
    positive(pass.lampToMark_m, 'distance from lamp to mark in m') /
    positive(pass.lampToBody_m, 'distance from lamp to body in m');
  const width_m = positive(pass.bodyWidth_m, 'body width in m') * enlarged;
  const speed_m_per_s = positive(pass.speed_m_per_s, 'speed in m/s') * enlarged;
  const over_m = width_m + nonNegative(pass.markWidth_m, 'width of the mark in m');
  return { width_m, speed_m_per_s, duration_s: over_m / speed_m_per_s };
}
