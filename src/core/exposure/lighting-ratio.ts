/**
 * Lighting ratios. There is more than one convention on set, so print this one beside the figure:
 *   key:fill = (key + fill):fill, both at the mark with the dome to the camera;
 *   rim:key  = rim:key, the rim metered with the receptor to the rim lamp.
 * Each function returns the first member with the second as 1. Nothing to compare with gives Infinity; no light in
 * either gives NaN, because no ratio exists.
 */
import { nonNegative } from '../units/quantity.ts';

/** (key + fill)/fill. RangeError when either is negative. */
export function keyToFill(key_lx: number, fill_lx: number): number {
  const fill = nonNegative(fill_lx, 'fill in lux');
  return (nonNegative(key_lx, 'key in lux') + fill) / fill;
}

/** rim/key. RangeError when either is negative. */
export function rimToKey(rim_lx: number, key_lx: number): number {
  return nonNegative(rim_lx, 'rim in lux') / nonNegative(key_lx, 'key in lux');
}
