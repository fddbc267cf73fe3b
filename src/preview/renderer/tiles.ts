import type { PixelRectangle } from '../gl/read-back.ts';

/**
 * Cuts frames into tiles that take about as long as they may: the next tile grows or shrinks by how long the last one took.
 * A tile is about square, because neighbours meet the same things; bands of tiles run up the frame.
 */
export interface Tiles {
  readonly width: number;
  readonly height: number;
  /** Pixels the next tile may have. */
  pixels: number;
  x: number;
  y: number;
  bandHeight: number;
}

/** Little enough that even slow graphics draw it at once. */
const FIRST_PIXELS = 1024;
const LEAST_PIXELS = 16;
/** What stands on the card for every pixel of a tile while it is drawn (renderer/wave.ts) must not fill it. */
const MOST_PIXELS = 2 ** 19;
/** A tile may grow by no more than this, for a part of the frame may cost far more than the last one did. */
const GROWTH = 1.5;

export function newTiles(width: number, height: number, pixels = FIRST_PIXELS): Tiles {
  return { width, height, pixels, x: 0, y: 0, bandHeight: 0 };
}

/** The next tile of the frame; null when all of it has been handed out, and the next call begins anew. */
export function nextTile(tiles: Tiles): PixelRectangle | null {
  if (tiles.x >= tiles.width) {
    tiles.x = 0;
    tiles.y += tiles.bandHeight;
  }
  if (tiles.y >= tiles.height) {
    tiles.x = 0;
    tiles.y = 0;
    return null;
  }
  if (tiles.x === 0) {
    const side = Math.max(1, Math.round(Math.sqrt(tiles.pixels)));
    tiles.bandHeight = Math.min(side, tiles.height - tiles.y);
  }
  const { x, y, bandHeight } = tiles;
  const width = Math.min(tiles.width - x, Math.max(1, Math.floor(tiles.pixels / bandHeight)));
  tiles.x += width;
  return { x, y, width, height: bandHeight };
}

/** Learns from how long a tile took. */
export function learnFrom(tiles: Tiles, tile: PixelRectangle, took_ms: number, wanted_ms: number): void {
  const drawn = tile.width * tile.height;
  const fits = (drawn * wanted_ms) / Math.max(0.01, took_ms);
  // A tile at the frame's edge may be small and quick without saying anything about larger ones.
  const most = Math.max(tiles.pixels, GROWTH * drawn);
  tiles.pixels = Math.round(
    Math.min(tiles.width * tiles.height, MOST_PIXELS, most, Math.max(LEAST_PIXELS, fits)),
  );
}
