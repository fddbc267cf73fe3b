/**
 * How long this machine draws at a tile, learnt from those before: each takes a time of its own whatever its size, for passes
 * and for the way to the card and back, and one for each pixel. A straight line is fitted through the tiles' times, by least
 * squares, the older ones counting less and less.
 */
export interface Pace {
  readonly perTile_ms: number;
  readonly perPixel_ms: number;
  /** Whether there have been tiles of sizes different enough to tell the two apart. */
  readonly told: boolean;
  /** The last tile. */
  readonly pixels: number;
  readonly took_ms: number;
  /** How many pixels a tile had lately, at most: the last one of a band may be a remainder. */
  readonly most: number;
  /** Weighted sums over the tiles. */
  readonly sums: {
    readonly weight: number;
    readonly pixels: number;
    readonly ms: number;
    readonly pixelsSquared: number;
    readonly pixelsTimesMs: number;
  };
}

/** What a tile counts against the next one. */
const MEMORY = 0.85;
/** Sizes that spread less, by their relative variance, tell nothing of what a tile costs by itself: times vary, too. */
const LEAST_SPREAD = 0.15;
/** No tile's own time is more than so much of all. */
const MOST_OWN = 0.98;

/** Little enough that even slow graphics draw it at once. */
const FIRST_PIXELS = 400;
const LEAST_PIXELS = 16;
/** A tile may grow by no more than this, for a part of the frame may cost far more than the last one did. */
const GROWTH = 1.5;
/** A tile so many times smaller tells at once what the one before took by itself. */
const TELLING = 2.5;
/** Where much of a tile's time is its own it may take longer than was asked for: its pixels so many times that, until all takes this. */
const WORTH = 4;
const LONGEST_ms = 40;

export function paceAfter(before: Pace | null, pixels: number, took_ms: number): Pace {
  const old = before?.sums ?? { weight: 0, pixels: 0, ms: 0, pixelsSquared: 0, pixelsTimesMs: 0 };
  const sums = {
    weight: MEMORY * old.weight + 1,
    pixels: MEMORY * old.pixels + pixels,
    ms: MEMORY * old.ms + took_ms,
    pixelsSquared: MEMORY * old.pixelsSquared + pixels * pixels,
    pixelsTimesMs: MEMORY * old.pixelsTimesMs + pixels * took_ms,
  };
  const meanPixels = sums.pixels / sums.weight;
  const mean_ms = sums.ms / sums.weight;
  const variance = sums.pixelsSquared / sums.weight - meanPixels ** 2;
  const covariance = sums.pixelsTimesMs / sums.weight - meanPixels * mean_ms;
  const spread = variance > LEAST_SPREAD * meanPixels ** 2;
  const own_ms = spread ? mean_ms - (covariance / variance) * meanPixels : (before?.perTile_ms ?? 0);
  const perTile_ms = Math.min(Math.max(0, own_ms), MOST_OWN * mean_ms);
  const most = Math.max(pixels, MEMORY * (before?.most ?? 0));
  const told = spread || before?.told === true;
  return { perTile_ms, perPixel_ms: (mean_ms - perTile_ms) / meanPixels, told, pixels, took_ms, most, sums };
}

/**
 * How many pixels the next tile may have, to take about as long as is wanted. `dearer`: the pace of tiles whose pixels cost no
 * less.
 */
export function tilePixels(pace: Pace | null, wanted_ms: number, dearer: Pace | null = null): number {
  if (!pace) return dearer ? tilePixels(dearer, wanted_ms) : FIRST_PIXELS;
  const { perTile_ms, told, pixels, took_ms, most } = pace;
  const perPixel_ms = Math.min(
    pace.perPixel_ms,
    dearer?.told ? dearer.perPixel_ms : Number.POSITIVE_INFINITY,
  );
  if (!told && took_ms < LONGEST_ms)
    return Math.round(took_ms > wanted_ms ? pixels / TELLING : GROWTH * pixels);
  // Several times as much time for the pixels as for the tile itself, or half of it where that keeps others waiting.
  const worth_ms = Math.max(Math.min(WORTH * perTile_ms, LONGEST_ms - perTile_ms), perTile_ms / 2);
  const forPixels_ms = Math.max(wanted_ms - perTile_ms, worth_ms);
  const fitting = forPixels_ms / Math.max(1e-9, perPixel_ms);
  // The last one alone says more where it took far longer than those before.
  const late = took_ms > LONGEST_ms;
  const lately = late ? (pixels * forPixels_ms) / Math.max(1e-9, took_ms - perTile_ms) : fitting;
  const grown = GROWTH * Math.max(most, FIRST_PIXELS);
  return Math.round(Math.max(LEAST_PIXELS, Math.min(fitting, lately, grown)));
}
