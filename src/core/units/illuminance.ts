import { METRES_PER_FOOT } from './length.ts';

/** 1 fc = 1 lm/ft², so exactly 1/0.3048² lx (10.763910…). */
export const LX_PER_FC = 1 / METRES_PER_FOOT ** 2;

/** Illuminance in lux of one in foot-candles. */
export function lxFromFc(illuminance_fc: number): number {
  return illuminance_fc * LX_PER_FC;
}

/** Illuminance in foot-candles of one in lux. */
export function fcFromLx(illuminance_lx: number): number {
  return illuminance_lx / LX_PER_FC;
}
