import { expect, it } from 'vitest';
import { newTiles, nextTile } from '../../../src/preview/renderer/tiles.ts';

it('tiles cover every pixel of a frame once, whatever its size and theirs', () => {
  for (const [width, height, pixels] of [
    [1, 1, 1024],
    [64, 36, 100],
    [37, 53, 7],
    [320, 2, 1024],
    [2, 320, 1024],
  ] as const) {
    const tiles = newTiles(width, height);
    const covered = new Uint8Array(width * height);
    for (let tile = nextTile(tiles, pixels); tile; tile = nextTile(tiles, pixels))
      for (let y = tile.y; y < tile.y + tile.height; y++)
        for (let x = tile.x; x < tile.x + tile.width; x++) covered[y * width + x]!++;
    // derived: each pixel belongs to one tile
    expect([...covered].every((times) => times === 1)).toBe(true);
    // and the next frame begins at its corner
    expect(nextTile(tiles, pixels)).toMatchObject({ x: 0, y: 0 });
  }
});

it('tiles may change their size from one to the next, and a frame that fits is one tile', () => {
  const tiles = newTiles(100, 80);
  const sizes = [400, 400, 900, 40_000];
  let covered = 0;
  for (let i = 0; ; i++) {
    const tile = nextTile(tiles, sizes[Math.min(i, 3)]!);
    if (!tile) break;
    covered += tile.width * tile.height;
  }
  expect(covered).toBe(8000);
  expect(nextTile(tiles, 8000)).toEqual({ x: 0, y: 0, width: 100, height: 80 });
});
