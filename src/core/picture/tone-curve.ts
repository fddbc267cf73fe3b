/**
 * The tone curve: the camera's exposure of a point to the linear light that a display shows for it.
 * With x = log₂(L/L₀), stops from middle grey, and y the display's light, 1 its white:
 *   x ≤ F             y = 0                                                     noise floor
 *   F < x < F/2       y = 0.18·2^(F/2)·((x − F)/(F/2 − F))^m, m = −ln 2·F/2       toe
 *   F/2 ≤ x ≤ 1       y = 0.18·2^x                                              straight part
 *   1 < x < W         log₂(y/0.18) = 1 + D·(1 − (1 − (x − 1)/(W − 1))^((W−1)/D)) shoulder, D = log₂(1/0.18) − 1
 *   x ≥ W             y = 1                                                     white
 * A curve of our own. Value and slope run on where the parts meet, and the shoulder arrives at white without a corner.
 * - Middle grey (x = 0) is exactly 18 % of display white, 0.4614 as sRGB stores it.
 * - The straight part has a slope of exactly 1, stop for stop: a point that meters −2.0 stops is drawn 2.0 stops under grey.
 * - Nowhere does y exceed 0.18·L/L₀. The curve can only hold light back; no part of a picture is brightened.
 */

/** Linear light of middle grey as part of display white: the reflectance of a grey card. */
export const MIDDLE_GREY = 0.18;

/** Ends of the camera's range, in stops from its zero. */
export interface ToneRange {
  /** W: from here on everything is white. */
  readonly white_stops: number;
  /** F: from here down everything is black. */
  readonly floor_stops: number;
}

/** A range common among digital cameras, set by no standard (common practice, no source). */
export const DEFAULT_TONE_RANGE: ToneRange = { white_stops: 5.5, floor_stops: -8 };

export interface ToneCurve {
  /** Light of the display, 0 to 1, for an exposure L/L₀. Negative exposure and NaN are none. */
  readonly display: (exposure: number) => number;
  /**
   * Exposure L/L₀ that the display's light stands for. For black the largest and for white the smallest exposure that is
   * drawn so. RangeError unless `display` is 0 to 1.
   */
  readonly exposure: (display: number) => number;
}

const STRAIGHT_END = 1;
/** From here down m > 1, so that the toe comes to black without a corner. */
const HIGHEST_FLOOR = -3;
/** Stops from grey to display white along the straight line. */
const GREY_TO_WHITE = Math.log2(1 / MIDDLE_GREY);

/** RangeError unless white is at least 2.48 stops up (where the straight line meets it) and the floor at most −3. */
export function toneCurve({ white_stops, floor_stops }: ToneRange = DEFAULT_TONE_RANGE): ToneCurve {
  if (!(white_stops >= GREY_TO_WHITE && Number.isFinite(white_stops))) {
    throw new RangeError(
      `white is at ${white_stops} stops; it must be a number of at least 2.48, where 18 % grey has doubled to white`,
    );
  }
  if (!(floor_stops <= HIGHEST_FLOOR && Number.isFinite(floor_stops))) {
    throw new RangeError(
      `noise floor is at ${floor_stops} stops; it must be a number of at most ${HIGHEST_FLOOR}`,
    );
  }
  const W = white_stops - STRAIGHT_END;
  const D = GREY_TO_WHITE - STRAIGHT_END;
  const straightStart = floor_stops / 2;
  const span = straightStart - floor_stops;
  const m = Math.LN2 * span;
  const toeTop = MIDDLE_GREY * 2 ** straightStart;
  const straightTop = MIDDLE_GREY * 2 ** STRAIGHT_END;

  return {
    display(exposure) {
      if (!(exposure > 0)) return 0;
      const x = Math.log2(exposure);
      if (x <= floor_stops) return 0;
      if (x >= white_stops) return 1;
      if (x < straightStart) return toeTop * ((x - floor_stops) / span) ** m;
      if (x <= STRAIGHT_END) return MIDDLE_GREY * exposure;
      return MIDDLE_GREY * 2 ** (STRAIGHT_END + D * (1 - (1 - (x - STRAIGHT_END) / W) ** (W / D)));
    },
    exposure(display) {
      if (!(display >= 0 && display <= 1)) {
        throw new RangeError(`display light is ${display}; it must be a number from 0 to 1`);
      }
      if (display < toeTop) return 2 ** (floor_stops + span * (display / toeTop) ** (1 / m));
      if (display <= straightTop) return display / MIDDLE_GREY;
      const held = 1 - (Math.log2(display / MIDDLE_GREY) - STRAIGHT_END) / D;
      return 2 ** (STRAIGHT_END + W * (1 - Math.max(0, held) ** (D / W)));
    },
  };
}
