import type { PixelRectangle } from '../gl/read-back.ts';

/** Cuts a frame into tiles, about square because neighbours meet the same things; bands of tiles run up the frame. */
export interface Tiles {
  readonly width: number;
  readonly height: number;
  x: number;
  y: number;
  bandHeight: number;
}

/** What stands on the card for every pixel of a tile while it is drawn (renderer/wave.ts) must not fill it. */
const MOST_PIXELS = 2 ** 19;

export function newTiles(width: number, height: number): Tiles {
  return { width, height, x: 0, y: 0, bandHeight: 0 };
}

/** The next tile of the frame, of about so many pixels; null when all of it has been handed out, and the next call begins anew. */
export function nextTile(tiles: Tiles, wantedPixels: number): PixelRectangle | null {
  if (tiles.x >= tiles.width) {
    tiles.x = 0;
    tiles.y += tiles.bandHeight;
  }
  if (tiles.y >= tiles.height) {
    tiles.x = 0;
    tiles.y = 0;
    return null;
  }
  const pixels = Math.min(MOST_PIXELS, wantedPixels);
  if (tiles.x === 0) {
    // As high as wide, but where that is wider than the frame.
    const side = Math.max(1, Math.round(Math.sqrt(pixels)), Math.floor(pixels / tiles.width));
    tiles.bandHeight = Math.min(side, tiles.height - tiles.y);
  }
  const { x, y, bandHeight } = tiles;
  const width = Math.min(tiles.width - x, Math.max(1, Math.floor(pixels / bandHeight)));
  tiles.x += width;
  return { x, y, width, height: bandHeight };
}
