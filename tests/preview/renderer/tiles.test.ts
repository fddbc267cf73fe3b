import { describe, expect, it } from 'vitest';
import { learnFrom, newTiles, nextTile } from '../../../src/preview/renderer/tiles.ts';

describe('tiles', () => {
  it('cover every pixel of a frame once, whatever its size and theirs', () => {
    for (const [width, height, pixels] of [
      [1, 1, 1024],
      [64, 36, 100],
      [37, 53, 7],
      [320, 2, 1024],
      [2, 320, 1024],
    ] as const) {
      const tiles = newTiles(width, height, pixels);
      const covered = new Uint8Array(width * height);
      for (let tile = nextTile(tiles); tile; tile = nextTile(tiles))
        for (let y = tile.y; y < tile.y + tile.height; y++)
          for (let x = tile.x; x < tile.x + tile.width; x++) covered[y * width + x]!++;
      // derived: each pixel belongs to one tile
      expect([...covered].every((times) => times === 1)).toBe(true);
      // and the next frame begins at its corner
      expect(nextTile(tiles)).toMatchObject({ x: 0, y: 0 });
    }
  });

  it('shrink at once where one took too long, and grow bit by bit where it was quick', () => {
    const tiles = newTiles(1000, 1000, 1024);
    const first = nextTile(tiles)!;
    learnFrom(tiles, first, 400, 40);
    // derived: a tenth of the time is a tenth of the pixels
    expect(tiles.pixels).toBe(Math.round((first.width * first.height) / 10));
    const small = nextTile(newTiles(1000, 1000, 100))!;
    const growing = newTiles(1000, 1000, 100);
    learnFrom(growing, small, 0.1, 40);
    // derived: GROWTH is 1.5
    expect(growing.pixels).toBe(150);
  });

  it('do not shrink because the one at the edge was small', () => {
    const tiles = newTiles(1000, 1000, 900);
    learnFrom(tiles, { x: 990, y: 0, width: 10, height: 30 }, 10, 40);
    expect(tiles.pixels).toBe(900);
  });
});
