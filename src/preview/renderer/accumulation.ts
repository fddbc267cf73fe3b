import { deleteFloatTarget, type FloatTarget, newFloatTarget } from '../gl/float-target.ts';
import type { SampleRange } from './noise.ts';
import { newTiles, type Tiles } from './tiles.ts';

/**
 * Sums of all samples so far, in floats: every sample reads one target and writes the other, tile by tile. The first outputs
 * are the sums of renderer/light-keeping.ts, linear RGB with the count of samples; the last is luminance by replicate.
 */
export interface Accumulation {
  readonly width: number;
  readonly height: number;
  tiles: Tiles;
  samples: number;
  /** Of the mix of lamps that is shown now: samples before are of another. */
  replicatesSince: number;
  /** How many samples each sum has: those of lamps that were off have fewer. */
  sumSamples: number[];
  /** On the card, once something has been drawn. */
  targets: Targets | null;
}

export interface Targets {
  /** Holds all whole samples. */
  readonly done: FloatTarget;
  /** Where the next one is being written. */
  readonly making: FloatTarget;
}

export function newAccumulation(width: number, height: number): Accumulation {
  const tiles = newTiles(width, height);
  return { width, height, tiles, samples: 0, replicatesSince: 0, sumSamples: [], targets: null };
}

/** @throws GraphicsUnable if the driver refuses targets of this size. */
export function targetsOf(gl: WebGL2RenderingContext, accumulation: Accumulation, sums: number): Targets {
  const { width, height, targets } = accumulation;
  if (targets) return targets;
  const done = newFloatTarget(gl, width, height, sums + 1);
  try {
    accumulation.targets = { done, making: newFloatTarget(gl, width, height, sums + 1) };
  } catch (refused) {
    deleteFloatTarget(gl, done);
    throw refused;
  }
  return accumulation.targets;
}

/** The sample in the making is whole; `atWork` is 1 for each sum that it added to. */
export function sampleDone(accumulation: Accumulation, atWork: readonly number[]): void {
  if (!accumulation.targets) return;
  const { done, making } = accumulation.targets;
  accumulation.targets = { done: making, making: done };
  accumulation.samples++;
  accumulation.sumSamples = atWork.map((one, i) => one + (accumulation.sumSamples[i] ?? 0));
}

/** Begins anew; what was learnt about how large tiles may be stays. */
export function startAgain(accumulation: Accumulation): void {
  startSampleAgain(accumulation);
  accumulation.samples = 0;
  accumulation.replicatesSince = 0;
  accumulation.sumSamples = [];
}

/** Lamps are mixed otherwise from now on: the sums stay, the sample in the making and the replicates do not. */
export function mixOtherwise(accumulation: Accumulation): void {
  startSampleAgain(accumulation);
  accumulation.replicatesSince = accumulation.samples;
}

/** Which samples the replicates are of. */
export function replicated({ samples, replicatesSince }: Accumulation): SampleRange {
  return { from: replicatesSince, to: samples };
}

/** How much less the error is than the replicates alone say, for older samples count too: of the lamp that has fewest. */
export function errorShare(
  { samples, replicatesSince, sumSamples }: Accumulation,
  atWork: readonly number[],
) {
  const fewest = Math.min(samples, ...sumSamples.filter((_, i) => atWork[i] === 1));
  return Math.sqrt((samples - replicatesSince) / Math.max(1, fewest));
}

export function deleteTargets(gl: WebGL2RenderingContext, accumulation: Accumulation): void {
  if (!accumulation.targets) return;
  deleteFloatTarget(gl, accumulation.targets.done);
  deleteFloatTarget(gl, accumulation.targets.making);
  accumulation.targets = null;
}

/** From the first tile again. */
export function startSampleAgain(accumulation: Accumulation): void {
  const { width, height, tiles } = accumulation;
  accumulation.tiles = newTiles(width, height, tiles.pixels);
}
