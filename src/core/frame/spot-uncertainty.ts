import { inputUncertainty_stops } from '../meter/input-uncertainty.ts';

/** One lamp's light along a line of sight. */
export interface SpotShare {
  /** Lamps of the same head share their photometric error. */
  readonly head: string;
  /** By way of the thing looked at, or the lamp's own face, and out of the haze before it. */
  readonly surface_cd_m2: number;
  readonly haze_cd_m2: number;
  readonly photometry_stops: number;
  /** What haze takes on the way from the lamp by the thing looked at to the eye. */
  readonly hazeLoss_stops: number;
}

/** Paint, cloth and skin are known to half a stop, from a library or by eye: common practice, no source. */
const REFLECTANCE_STOPS = 1 / 2;

/**
 * How far the inputs may put a spot reading off, ± stops: lamps, haze and sky weigh on it by their shares as on a meter
 * reading, and so does the reflectance of the thing looked at by the part of the light that it sends on. Independent of
 * each other, so in quadrature. Not counted: reflectances of other things that light came by before. 0 in the dark.
 */
export function spotUncertainty_stops(
  lamps: readonly SpotShare[],
  sky_cd_m2: number,
  reflected_cd_m2: number,
): number {
  const surface = lamps.reduce((sum, lamp) => sum + lamp.surface_cd_m2, 0);
  const haze = lamps.reduce((sum, lamp) => sum + lamp.haze_cd_m2, 0);
  const total = surface + haze + sky_cd_m2;
  if (!(total > 0)) return 0;
  // Only shares count, so luminance stands in for illuminance. What glows is not what has been dimmed: two shares a lamp.
  const shares = lamps.flatMap(({ head, photometry_stops, hazeLoss_stops, surface_cd_m2, haze_cd_m2 }) => [
    { head, photometry_stops, hazeLoss_stops, illuminance_lx: surface_cd_m2 },
    { head, photometry_stops, hazeLoss_stops: 0, illuminance_lx: haze_cd_m2 },
  ]);
  return Math.hypot(
    inputUncertainty_stops(shares, haze, sky_cd_m2),
    (reflected_cd_m2 / total) * REFLECTANCE_STOPS,
  );
}
