import { aimThrough, newCameraRay, type ThinLens } from '../camera/thin-lens.ts';
import { type FacePoint, placeOnFace } from '../lamps/face.ts';
import { kroneckerU, kroneckerV, mixed32 } from '../math/kronecker.ts';
import { nextRandom, seededRandom } from '../math/random.ts';
import { luminance, newLightBins } from '../transport/light-bins.ts';
import { tracePath } from '../transport/path.ts';
import type { Tracer } from '../transport/tracer.ts';

/** A band of rows of a frame in the making: sums over the samples so far. */
export interface FramePart {
  readonly width_px: number;
  readonly height_px: number;
  readonly firstRow: number;
  readonly rows: number;
  readonly seed: number;
  samples: number;
  /** Linear RGB (cd/m²), three numbers a pixel. */
  readonly sum: Float64Array;
  /** Of squared luminance, one number a pixel. */
  readonly squares: Float64Array;
}

export function newFramePart(
  width_px: number,
  height_px: number,
  firstRow: number,
  rows: number,
  seed: number,
): FramePart {
  const pixels = width_px * rows;
  return {
    width_px,
    height_px,
    firstRow,
    rows,
    seed,
    samples: 0,
    sum: new Float64Array(3 * pixels),
    squares: new Float64Array(pixels),
  };
}

const PUPIL = { shape: 'disc', radius_m: 1 } as const;
const ray = newCameraRay();
const inPupil: FacePoint = { r_m: 0, t_m: 0 };

/**
 * Adds `count` samples to every pixel. A sample depends on the seed, the pixel and its number alone, so a frame is the
 * same to the last bit however its rows are dealt out.
 */
export function addSamples(tracer: Tracer, lens: ThinLens, part: FramePart, count: number): void {
  const { width_px, height_px, firstRow, rows, seed, sum, squares } = part;
  const bins = newLightBins(tracer.model.lamps.length);
  for (let row = 0; row < rows; row++) {
    for (let column = 0; column < width_px; column++) {
      const pixel = (firstRow + row) * width_px + column;
      const at = row * width_px + column;
      const key = mixed32(mixed32(seed) + pixel);
      for (let i = part.samples; i < part.samples + count; i++) {
        const random = seededRandom(mixed32(key + 0x632be59b * (i + 1)));
        const u = (column + kroneckerU(i, key)) / width_px;
        const v = (firstRow + row + kroneckerV(i, mixed32(key + 1))) / height_px;
        placeOnFace(PUPIL, nextRandom(random), nextRandom(random), inPupil);
        aimThrough(lens, u, v, inPupil.r_m, inPupil.t_m, ray);
        bins.fill(0);
        tracePath(tracer, random, { ...ray, from: 'camera', density: 0 }, 1, bins);
        let [r, g, b] = [0, 0, 0];
        for (let k = 0; k < bins.length; k += 3) {
          r += bins[k]!;
          g += bins[k + 1]!;
          b += bins[k + 2]!;
        }
        sum[3 * at]! += r;
        sum[3 * at + 1]! += g;
        sum[3 * at + 2]! += b;
        squares[at]! += luminance(r, g, b) ** 2;
      }
    }
  }
  part.samples += count;
}

/** Standard error of each pixel's luminance, cd/m². */
export function standardErrors_cd_m2({ samples, sum, squares }: FramePart): Float64Array {
  return squares.map((square, i) => {
    const mean = luminance(sum[3 * i]!, sum[3 * i + 1]!, sum[3 * i + 2]!) / samples;
    return Math.sqrt(Math.max(0, square / samples - mean * mean) / Math.max(1, samples - 1));
  });
}
