import type { Vec3 } from '../../core/math/vec3.ts';
import { luminanceOfRgb } from '../../core/picture/linear-rgb.ts';
import type { Texels } from '../pack/texels.ts';

/**
 * Light is summed by lamp, each traced at full level, so that a level, a switch or a tint re-mixes the frame at once. There
 * is room for so many sums: the first is that of the sky and of all lamps that have none of their own.
 */
export interface Keeping {
  /** How many sums. */
  readonly sums: number;
  /** By place among the lamps of the scene, which sum its light goes to. */
  readonly sumOf: readonly number[];
}

/** What each lamp's light at full level is multiplied by, linear RGB: level, what its filters pass, 0 when off. */
export type Mix = readonly Vec3[];

/** How many sums a program may be built for: few variants, for building takes long. */
const SIZES = [1, 4, 7] as const;
/** What all sums of a frame may take on the card, twice over: the sample in the making is written beside those before it. */
const MOST_BYTES = 400e6;

/**
 * Gives lamps sums of their own: those that were touched last first, then the brightest. `most` is how many outputs the
 * driver draws into at once, one of which holds the replicates.
 */
export function keepingFor(mix: Mix, touched: readonly number[], pixels: number, most: number): Keeping {
  const fits = (sums: number) => sums < most && 2 * 16 * pixels * (sums + 1) <= MOST_BYTES;
  const wanted = SIZES.find((sums) => sums > mix.length) ?? SIZES.at(-1)!;
  const sums = SIZES.findLast((size) => size <= wanted && fits(size)) ?? 1;
  const byLight = [...mix.keys()].sort((a, b) => weightOf(mix[b]!) - weightOf(mix[a]!));
  const own = [...new Set([...touched, ...byLight])].slice(0, sums - 1);
  return { sums, sumOf: mix.map((_, lamp) => own.indexOf(lamp) + 1) };
}

/** How much a lamp counts when one of many is chosen to be looked at. */
export function weightOf(factor: Vec3): number {
  return Math.max(0, luminanceOfRgb(factor), 1e-3 * Math.max(...factor));
}

/**
 * Two texels a lamp, one below the other: what its light is multiplied by before it is summed, with the sum it goes to; how
 * much it counts when one is chosen, 0 where its sum is not `traced`, and how much of it shines at all.
 */
export function keptTexels({ sumOf }: Keeping, mix: Mix, traced: readonly number[]): Texels {
  const width = Math.max(1, mix.length);
  const data = new Float32Array(2 * 4 * width);
  mix.forEach((factor, lamp) => {
    const sum = sumOf[lamp]!;
    data.set([...(sum === 0 ? factor : [1, 1, 1]), sum], 4 * lamp);
    const weight = weightOf(factor);
    data.set([weight * traced[sum]!, weight], 4 * (width + lamp));
  });
  return { width, height: 2, data };
}

/** What each sum is multiplied by in the frame, three numbers a sum. */
export function sumFactors({ sums, sumOf }: Keeping, mix: Mix): number[] {
  const factors: number[] = Array.from({ length: 3 * sums }, (_, i) => (i < 3 ? 1 : 0));
  mix.forEach((factor, lamp) => {
    const sum = sumOf[lamp]!;
    if (sum > 0) factors.splice(3 * sum, 3, ...factor);
  });
  return factors;
}

/** 1 for each sum that shows in the frame, 0 for those whose lamp is off: they keep what they have. */
export function sumsAtWork({ sums, sumOf }: Keeping, mix: Mix): number[] {
  const working: number[] = Array.from({ length: sums }, (_, i) => (i === 0 ? 1 : 0));
  mix.forEach((factor, lamp) => {
    if (weightOf(factor) > 0) working[sumOf[lamp]!] = 1;
  });
  return working;
}

/** Whether what was summed so far serves another mix too: lamps that share a sum cannot be told apart in it. */
export function servesAlso({ sumOf }: Keeping, before: Mix, now: Mix): boolean {
  return sumOf.every((sum, lamp) => sum > 0 || before[lamp]!.every((x, c) => x === now[lamp]![c]));
}
