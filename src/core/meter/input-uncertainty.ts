/**
 * How far the inputs may be off, as ± stops: common practice, no source. Photometry comes with each lamp (metered ⅓,
 * file ⅔, lumens 1). Haze is known within a factor of two until it is metered, so that what it takes from a lamp is
 * uncertain by its own loss, at most one stop, and what it glows with by a stop. A sky is a stop.
 *
 * Independent errors add in quadrature, each weighted by the share of the reading it bears on; lamps of one head are
 * wrong together, and so is the haze, so these add straight. First order in stops, which is what a ± is for.
 */
export interface UncertainShare {
  /** Lamps of the same head share their photometric error. */
  readonly head: string;
  readonly illuminance_lx: number;
  readonly photometry_stops: number;
  /** What haze takes from this lamp at the mark. */
  readonly hazeLoss_stops: number;
}

/** ± of what a sky brings. */
export const SKY_STOPS = 1;
const MOST_HAZE_STOPS = 1;
const HAZE_GLOW_STOPS = 1;

/** ± stops of a sum of lamps (glow of the haze included, and again by itself) and sky; 0 in the dark, where there is nothing to be wrong about. */
export function inputUncertainty_stops(
  lamps: readonly UncertainShare[],
  hazeGlow_lx: number,
  sky_lx: number,
): number {
  const total = lamps.reduce((sum, lamp) => sum + lamp.illuminance_lx, sky_lx);
  if (!(total > 0)) return 0;
  const byHead = new Map<string, number>();
  let haze = (hazeGlow_lx / total) * HAZE_GLOW_STOPS;
  for (const lamp of lamps) {
    const share = lamp.illuminance_lx / total;
    byHead.set(lamp.head, (byHead.get(lamp.head) ?? 0) + share * lamp.photometry_stops);
    haze += share * Math.min(MOST_HAZE_STOPS, lamp.hazeLoss_stops);
  }
  return Math.hypot(...byHead.values(), haze, (sky_lx / total) * SKY_STOPS);
}
