/** What the contrasts along an outline come to. */
export interface OutlineSummary {
  /** Part of the outline that stands out by a stop or more, lighter or darker. */
  readonly share_over_1_stop: number;
  /** Median size of the contrast, whichever side is the lighter. */
  readonly median_stops: number;
  /** Part of the outline along which the figure is the lighter. */
  readonly lighter_share: number;
}

/** From this contrast on an edge stands out; under it, it is marginal: common practice, no source. */
export const STANDS_OUT_STOPS = 1;

/** Summary of signed contrasts at places of equal length. RangeError for none. */
export function outlineSummary(stops: readonly number[]): OutlineSummary {
  if (stops.length === 0) throw new RangeError('an outline of no places has no summary');
  const sizes = stops.map(Math.abs).sort((a, b) => a - b);
  const middle = (sizes.length - 1) / 2;
  return {
    share_over_1_stop: shareOver(stops, STANDS_OUT_STOPS),
    median_stops: (sizes[Math.floor(middle)]! + sizes[Math.ceil(middle)]!) / 2,
    lighter_share: stops.filter((s) => s > 0).length / stops.length,
  };
}

/** Part of the places whose contrast is at least `threshold_stops`. */
export function shareOver(stops: readonly number[], threshold_stops: number): number {
  return stops.filter((s) => Math.abs(s) >= threshold_stops).length / stops.length;
}
