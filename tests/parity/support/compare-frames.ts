import { mkdirSync, writeFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { luminanceOfRgb } from '../../../src/core/picture/linear-rgb.ts';
import { pngOf } from '../../../src/paperwork/picture-files/png.ts';

/** A frame that is known to within the noise that its variances tell. */
export interface NoisyFrame {
  readonly width: number;
  readonly height: number;
  /** Linear RGB, three numbers a pixel. */
  readonly rgb: ArrayLike<number>;
  /** Variance of the mean luminance of each pixel. */
  readonly variances: ArrayLike<number>;
}

/** Of a tile's luminance in two frames: how much more the second has, as a share of the mean of both, and its standard error. */
export interface TileDifference {
  readonly column: number;
  readonly row: number;
  readonly share: number;
  readonly error: number;
}

/** Compares tiles of two frames of one size; tiles that are black in both are left out. */
export function tileDifferences(one: NoisyFrame, other: NoisyFrame, tile_px: number): TileDifference[] {
  const found: TileDifference[] = [];
  for (let row = 0; row < one.height; row += tile_px)
    for (let column = 0; column < one.width; column += tile_px) {
      const a = tileSum(one, column, row, tile_px);
      const b = tileSum(other, column, row, tile_px);
      const mean = (a.sum + b.sum) / 2;
      if (mean === 0) continue;
      const error = Math.sqrt(a.variance + b.variance) / mean;
      found.push({ column, row, share: (b.sum - a.sum) / mean, error });
    }
  return found;
}

/**
 * The same with pixels cut off at so many times the median of their tile in both frames, so that rare bright samples do not
 * hide what all others say. Of two frames with as many samples a pixel, any such cut leaves the same mean; the error comes
 * from how far apart single pixels are.
 */
export function clippedTileDifferences(
  one: NoisyFrame,
  other: NoisyFrame,
  tile_px: number,
  medians: number,
): TileDifference[] {
  const found: TileDifference[] = [];
  for (let row = 0; row < one.height; row += tile_px)
    for (let column = 0; column < one.width; column += tile_px) {
      const at = pixelsOfTile(one, column, row, tile_px);
      const [a, b] = [one, other].map((frame) => at.map((pixel) => luminanceAt(frame, pixel)));
      const lit = [...a!, ...b!].filter((Y) => Y > 0).sort((x, y) => x - y);
      const most = medians * (lit[lit.length >> 1] ?? 0);
      if (most === 0) continue;
      const apart = at.map((_, i) => Math.min(most, b![i]!) - Math.min(most, a![i]!));
      const mean = [...a!, ...b!].reduce((sum, Y) => sum + Math.min(most, Y) / 2, 0);
      const share = apart.reduce((sum, d) => sum + d, 0) / mean;
      found.push({ column, row, share, error: Math.hypot(...apart) / mean });
    }
  return found;
}

/** Of a pixel's luminance: how many stops more the second frame has, and how many standard errors they are apart. */
export interface PixelDifference {
  readonly stops: number;
  readonly errors: number;
}

/** Compares two frames of one size pixel by pixel; those that are black in either, or without any noise, are left out. */
export function pixelDifferences(one: NoisyFrame, other: NoisyFrame): PixelDifference[] {
  return Array.from({ length: one.width * one.height }, (_, at) => {
    const [a, b] = [luminanceAt(one, at), luminanceAt(other, at)];
    const error = Math.sqrt(one.variances[at]! + other.variances[at]!);
    return { a, b, error };
  })
    .filter(({ a, b, error }) => a > 0 && b > 0 && error > 0)
    .map(({ a, b, error }) => ({ stops: Math.log2(b / a), errors: Math.abs(b - a) / error }));
}

function luminanceAt({ rgb }: NoisyFrame, at: number): number {
  return luminanceOfRgb([rgb[3 * at]!, rgb[3 * at + 1]!, rgb[3 * at + 2]!]);
}

function tileSum(frame: NoisyFrame, column: number, row: number, tile_px: number) {
  let sum = 0;
  let variance = 0;
  for (const at of pixelsOfTile(frame, column, row, tile_px)) {
    sum += luminanceAt(frame, at);
    variance += frame.variances[at]!;
  }
  return { sum, variance };
}

function pixelsOfTile({ width, height }: NoisyFrame, column: number, row: number, tile_px: number): number[] {
  const pixels: number[] = [];
  for (let y = row; y < Math.min(height, row + tile_px); y++)
    for (let x = column; x < Math.min(width, column + tile_px); x++) pixels.push(y * width + x);
  return pixels;
}

/** Writes both frames and their difference side by side, large enough to be looked at; returns the file's path. */
export function writeComparison(name: string, one: NoisyFrame, other: NoisyFrame): string {
  const SCALE = 6;
  const { width, height } = one;
  const luminances = (frame: NoisyFrame) =>
    Array.from({ length: width * height }, (_, i) => luminanceAt(frame, i));
  const [a, b] = [luminances(one), luminances(other)];
  const white = [...a].sort((x, y) => x - y)[Math.floor(0.95 * a.length)]! || 1;
  const grey = (x: number) => Math.round(255 * Math.min(1, Math.max(0, x / white)) ** (1 / 2.2));
  const rgb = new Uint8Array(3 * 3 * width * SCALE * height * SCALE);
  for (let y = 0; y < height * SCALE; y++)
    for (let x = 0; x < 3 * width * SCALE; x++) {
      const part = Math.floor(x / (width * SCALE));
      const at = Math.floor(y / SCALE) * width + Math.floor((x % (width * SCALE)) / SCALE);
      // The difference in stops: red where the second frame is brighter, blue where it is darker, full at half a stop.
      const stops = Math.log2(Math.max(1e-9, b[at]!) / Math.max(1e-9, a[at]!)) * 2;
      const colour =
        part === 2
          ? [
              Math.round(255 * Math.min(1, Math.max(0, stops))),
              0,
              Math.round(255 * Math.min(1, Math.max(0, -stops))),
            ]
          : [grey((part ? b : a)[at]!), grey((part ? b : a)[at]!), grey((part ? b : a)[at]!)];
      rgb.set(colour, 3 * (y * 3 * width * SCALE + x));
    }
  const folder = fileURLToPath(new URL('../../../dist/parity/', import.meta.url));
  mkdirSync(folder, { recursive: true });
  const file = `${folder}${name.replaceAll(/[^a-z0-9]+/gi, '-')}.png`;
  const title = `${name}: the core's frame, the graphics card's, the difference (full colour at half a stop)`;
  writeFileSync(
    file,
    pngOf({ width_px: 3 * width * SCALE, height_px: height * SCALE, rgb }, { Title: title }),
  );
  return file;
}
