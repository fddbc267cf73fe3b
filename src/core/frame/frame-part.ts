import { aimThrough, newCameraRay, type ThinLens } from '../camera/thin-lens.ts';
import { type FacePoint, placeOnFace } from '../lamps/face.ts';
import { mixed32 } from '../math/kronecker.ts';
import { nextRandom, seededRandom, startPath } from '../math/random.ts';
import { luminance, newLightBins } from '../transport/light-bins.ts';
import { tracePath } from '../transport/path.ts';
import type { Tracer } from '../transport/tracer.ts';
import type { NoisyFrame } from './noise-filter.ts';

/** Each pixel has so many independent estimates, whose spread is its error. */
export const REPLICATES = 4;

/** A band of rows of a frame in the making: sums over the samples so far. */
export interface FramePart {
  readonly width_px: number;
  readonly height_px: number;
  readonly firstRow: number;
  readonly rows: number;
  readonly seed: number;
  /** Per replicate. */
  samples: number;
  /** Linear RGB (cd/m²) of the first and of the second half of the replicates, six numbers a pixel. */
  readonly halves: Float64Array;
  /** Luminance by replicate, REPLICATES numbers a pixel. */
  readonly byReplicate: Float64Array;
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
    halves: new Float64Array(6 * pixels),
    byReplicate: new Float64Array(REPLICATES * pixels),
  };
}

const PUPIL = { shape: 'disc', radius_m: 1 } as const;
const ray = newCameraRay();
const inPupil: FacePoint = { r_m: 0, t_m: 0 };

/**
 * Adds `count` samples to every replicate of every pixel. A sample depends on the seed, the pixel, the replicate and its
 * number alone, so a frame is the same to the last bit however its rows are dealt out.
 */
export function addSamples(tracer: Tracer, lens: ThinLens, part: FramePart, count: number): void {
  const { width_px, height_px, firstRow, rows, seed, halves, byReplicate } = part;
  const bins = newLightBins(tracer.model.lamps.length);
  for (let at = 0; at < width_px * rows; at++) {
    const column = at % width_px;
    const row = firstRow + (at - column) / width_px;
    const key = mixed32(mixed32(seed) + row * width_px + column);
    for (let replicate = 0; replicate < REPLICATES; replicate++) {
      const random = seededRandom(key + 0x632be59b * replicate);
      for (let i = part.samples; i < part.samples + count; i++) {
        startPath(random, i);
        const u = (column + nextRandom(random)) / width_px;
        const v = (row + nextRandom(random)) / height_px;
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
        const half = 6 * at + (replicate < REPLICATES / 2 ? 0 : 3);
        halves[half]! += r;
        halves[half + 1]! += g;
        halves[half + 2]! += b;
        byReplicate[REPLICATES * at + replicate]! += luminance(r, g, b);
      }
    }
  }
  part.samples += count;
}

/** Some rows of a part, which share its sums: what is added to them is added to it. */
export function rowsOf(part: FramePart, firstRow: number, rows: number): FramePart {
  const { width_px, halves, byReplicate } = part;
  const [from, to] = [firstRow, firstRow + rows].map((row) => (row - part.firstRow) * width_px);
  return {
    ...part,
    firstRow,
    rows,
    halves: halves.subarray(6 * from!, 6 * to!),
    byReplicate: byReplicate.subarray(REPLICATES * from!, REPLICATES * to!),
  };
}

/** Samples a pixel, over all replicates. */
export function samplesOf({ samples }: FramePart): number {
  return REPLICATES * samples;
}

/** Mean linear RGB (cd/m²), three numbers a pixel: of all samples, or of one half of them. */
export function meanRgb(part: FramePart, half?: 0 | 1): Float64Array {
  const { halves } = part;
  const n = samplesOf(part);
  return Float64Array.from({ length: halves.length / 2 }, (_, i) => {
    const c = i % 3;
    const at = 2 * (i - c) + c;
    return half === undefined ? (halves[at]! + halves[at + 3]!) / n : (2 * halves[at + 3 * half]!) / n;
  });
}

/** What the noise filter takes of a whole frame: the halves of its samples apart. */
export function noisyFrameOf(part: FramePart): NoisyFrame {
  const { width_px, rows } = part;
  return {
    width_px,
    height_px: rows,
    halves: [meanRgb(part, 0), meanRgb(part, 1)],
    // The mean of one half has twice the variance of the mean of both.
    variance: variances(part).map((ofAll) => 2 * ofAll),
  };
}

/** Variance of the mean luminance of each pixel, (cd/m²)², from the spread of its replicates. */
export function variances({ samples, byReplicate }: FramePart): Float64Array {
  return Float64Array.from({ length: byReplicate.length / REPLICATES }, (_, pixel) => {
    const own = byReplicate.subarray(REPLICATES * pixel, REPLICATES * (pixel + 1));
    const mean = own.reduce((total, value) => total + value, 0) / REPLICATES;
    const squares = own.reduce((total, value) => total + (value - mean) ** 2, 0);
    return squares / (REPLICATES - 1) / REPLICATES / (samples * samples);
  });
}
