import { kelvinFromMired } from './mired.ts';

/** A white balance between cool and warm light. */
export interface EvenSplit {
  readonly whiteBalance_K: number;
  /** How far the cool light lies on the blue side, and as far the warm on the orange side, mired. */
  readonly split_mired: number;
}

/**
 * The white balance that puts cool and warm light evenly to either side: M = (M_cool + M_warm)/2, because equal steps in
 * mired look equally coloured. ±(M_warm − M_cool)/2 is what either keeps of its colour. Valid for whites (|Duv| ≤ 0.05).
 */
export function evenSplit(cool_mired: number, warm_mired: number): EvenSplit {
  return {
    whiteBalance_K: kelvinFromMired((cool_mired + warm_mired) / 2),
    split_mired: (warm_mired - cool_mired) / 2,
  };
}

/**
 * Where to part lamps into cool and warm: the index of the first warm one in a rising list of mired, at the widest gap.
 * 0 where all are alike, that is where no gap reaches `leastGap_mired`.
 */
export function widestGap(rising_mired: readonly number[], leastGap_mired: number): number {
  let at = 0;
  let widest = leastGap_mired;
  for (let i = 1; i < rising_mired.length; i++) {
    const gap = rising_mired[i]! - rising_mired[i - 1]!;
    if (gap >= widest) [at, widest] = [i, gap];
  }
  return at;
}
