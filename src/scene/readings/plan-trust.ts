import type { Lamp } from '../../core/light-model/light-model.ts';

/**
 * What the plan may be off by before anything is metered, as ± stops: each lamp's photometry, and the haze's extinction by a
 * factor of two. Lamps of one head share most of their error (the figure of the head is wrong) and each has some of its own
 * (the age of its source, its dimmer, its gel): common practice, no source.
 */
const OWN_stops = 1 / 4;
export const HAZE_stops = 1;
/** What a hand-held meter's reading may be off by, where it is held and pointed included: common practice, no source. */
export const READING_stops = 0.1;

/** Covariance of the lamps' outputs and, last, the haze's extinction: (lamps + 1)², stops². */
export function planCovariance(lamps: readonly Lamp[]): Float64Array {
  const n = lamps.length + 1;
  const P = new Float64Array(n * n);
  for (const [r, one] of lamps.entries()) {
    const own = Math.min(OWN_stops, one.photometryUncertainty_stops);
    for (const [c, other] of lamps.entries()) {
      if (one.head !== other.head) continue;
      P[r * n + c] = one.photometryUncertainty_stops ** 2 - (r === c ? 0 : own ** 2);
    }
  }
  P[n * n - 1] = HAZE_stops ** 2;
  return P;
}

/** The same with every unknown by itself and as good as unknown: what is left when only the readings are asked. */
export function planCovarianceWeakened(planned: Float64Array, n: number, weaker: number): Float64Array {
  const P = new Float64Array(n * n);
  for (let i = 0; i < n; i++) P[i * n + i] = planned[i * n + i]! * weaker ** 2;
  return P;
}
