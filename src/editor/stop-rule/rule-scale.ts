import { MIDDLE_GREY, type ToneRange } from '../../core/picture/tone-curve.ts';

/**
 * The ruler: stops from the camera's zero along its width, as many pixels for every stop. Its ends are those of the
 * camera's range for a grey card in that light: white, from where on it clips, and the noise floor.
 */
export interface RuleScale {
  readonly width_px: number;
  readonly perStop_px: number;
  readonly range: ToneRange;
  /** Where a number of stops stands; beyond the ruler, at its edge. */
  x_px(stops: number): number;
  /** What a place on the ruler stands for, no further than its edges. */
  stopsAt(x_px: number): number;
}

/** Room beyond white and noise floor, where needles that are off the range come to rest. */
const BEYOND_stops = 0.75;
const EDGE_px = 14;

export function ruleScale(width_px: number, range: ToneRange): RuleScale {
  const from = range.floor_stops - BEYOND_stops;
  const to = range.white_stops + BEYOND_stops;
  const perStop_px = Math.max(1, width_px - 2 * EDGE_px) / (to - from);
  const within = (stops: number) => Math.min(to, Math.max(from, stops));
  return {
    width_px,
    perStop_px,
    range,
    x_px: (stops) => EDGE_px + (within(stops) - from) * perStop_px,
    stopsAt: (x_px) => within(from + (x_px - EDGE_px) / perStop_px),
  };
}

/** Whether a reading stands beyond the ruler, and on which side. */
export function beyond(stops: number, { range }: RuleScale): -1 | 0 | 1 {
  if (stops > range.white_stops + BEYOND_stops) return 1;
  return stops < range.floor_stops - BEYOND_stops ? -1 : 0;
}

export interface Tick {
  readonly stops: number;
  /** A third, a whole stop, or the camera's zero. */
  readonly kind: 'third' | 'stop' | 'zero';
}

const LEAST_THIRD_px = 5;

/** Every third from end to end; whole stops alone where thirds would run together. */
export function ticksOf({ range, perStop_px }: RuleScale): Tick[] {
  const thirds = perStop_px / 3 >= LEAST_THIRD_px;
  const first = Math.ceil(range.floor_stops * 3);
  const last = Math.floor(range.white_stops * 3);
  const ticks: Tick[] = [];
  for (let third = first; third <= last; third++) {
    const kind = third === 0 ? 'zero' : third % 3 === 0 ? 'stop' : 'third';
    if (kind !== 'third' || thirds) ticks.push({ stops: third / 3, kind });
  }
  return ticks;
}

/** Reflectance of white paper: common practice, no source. */
const WHITE_PAPER = 0.9;

/** Where white paper clips: it is so much lighter than the grey card that the camera's white is stated for. */
export function whitePaper_stops({ white_stops }: ToneRange): number {
  return white_stops - Math.log2(WHITE_PAPER / MIDDLE_GREY);
}

/** To the nearest third: how wants are set. */
export function nearestThird(stops: number): number {
  return Math.round(stops * 3) / 3;
}
