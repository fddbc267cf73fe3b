import { luminanceOfRgb } from '../../../src/core/picture/linear-rgb.ts';

/** What a meter on the card reads, as a mean over many pixels that each hold the same meter. */
export interface HeldReading {
  readonly mean_lx: number;
  /** Standard error of the mean. */
  readonly error_lx: number;
}

/** Each meter as often as `copies` says, one copy behind the other, so that few draws make many paths. */
export function copiesOf<Meter>(meters: readonly Meter[], copies: number): Meter[] {
  return meters.flatMap((meter) => Array<Meter>(copies).fill(meter));
}

/** The readings of the meters that `copiesOf` dealt out, from linear RGB, three numbers a pixel. */
export function readingsOf(rgb: ArrayLike<number>, copies: number): HeldReading[] {
  return Array.from({ length: rgb.length / 3 / copies }, (_, meter) => {
    const read = Array.from({ length: copies }, (_unused, k) => {
      const at = 3 * (copies * meter + k);
      return luminanceOfRgb([rgb[at]!, rgb[at + 1]!, rgb[at + 2]!]);
    });
    const mean_lx = read.reduce((sum, x) => sum + x, 0) / copies;
    const variance = read.reduce((sum, x) => sum + (x - mean_lx) ** 2, 0) / (copies - 1) / copies;
    return { mean_lx, error_lx: Math.sqrt(variance) };
  });
}
