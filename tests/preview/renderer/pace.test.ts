import { describe, expect, it } from 'vitest';
import { type Pace, paceAfter, tilePixels } from '../../../src/preview/renderer/pace.ts';

/** A machine that takes `perTile_ms` for a tile and `perPixel_ms` for each of its pixels, asked for one tile after another. */
function drawnBy(perTile_ms: number, perPixel_ms: number, wanted_ms: number, tiles: number) {
  const times: number[] = [];
  let pace: Pace | null = null;
  for (let i = 0; i < tiles; i++) {
    const pixels = tilePixels(pace, wanted_ms);
    times.push(perTile_ms + perPixel_ms * pixels);
    pace = paceAfter(pace, pixels, times.at(-1)!);
  }
  return { times, pace: pace!, pixels: tilePixels(pace, wanted_ms) };
}

describe('the pace of a machine', () => {
  it('is what each tile takes by itself, and each pixel', () => {
    const { pace } = drawnBy(4, 1 / 1000, 16, 30);
    // derived: times on a straight line are that line
    expect(pace.perTile_ms).toBeCloseTo(4, 6);
    expect(pace.perPixel_ms).toBeCloseTo(1 / 1000, 9);
  });

  it('makes tiles that take as long as is wanted', () => {
    // derived: 14 of 16 ms are left for pixels
    expect(drawnBy(2, 1 / 1000, 16, 30).pixels).toBe(14_000);
    // software: a hundredth of that speed and nothing for the tile; the first tile is too long, no later one is
    const { pixels, times } = drawnBy(0, 1 / 20, 16, 30);
    expect(pixels).toBe(320);
    expect(times.slice(1).every((ms) => ms < 17)).toBe(true);
  });

  it('makes tiles worth their own time, but none that keeps others waiting', () => {
    // derived: 4 ms of their own, so 16 ms of pixels, though 16 ms were wanted for both
    expect(drawnBy(4, 1 / 1000, 16, 40).pixels).toBe(16_000);
    // derived: 40 ms are the most, of which 14 are the tile's own
    expect(drawnBy(14, 1 / 1000, 16, 40).pixels).toBe(26_000);
    // derived: 40 ms are the most: 15 are left for pixels, but never less than half of the tile's own
    expect(drawnBy(25, 1 / 1000, 16, 40).pixels).toBe(15_000);
    expect(drawnBy(60, 1 / 1000, 16, 40).pixels).toBe(30_000);
  });

  it('is not small after what was left of a band', () => {
    const { pace, pixels } = drawnBy(4, 1 / 1000, 16, 30);
    // derived: the line is the same
    expect(tilePixels(paceAfter(pace, 100, 4.1), 16)).toBe(pixels);
  });

  it('grows bit by bit, and gives way at once where a part of the frame costs far more', () => {
    const quick = paceAfter(null, 1024, 0.1);
    // derived: GROWTH is 1.5
    expect(tilePixels(quick, 16)).toBe(1536);
    const { pace } = drawnBy(0, 1 / 1000, 16, 30);
    // derived: ten times as long as wanted, so a tenth of the pixels
    expect(tilePixels(paceAfter(pace, 16_000, 160), 16)).toBe(1600);
  });
});
