import { deleteFloatTarget, type FloatTarget, newFloatTarget } from '../gl/float-target.ts';
import type { SampleRange } from './noise.ts';
import { newTiles, type Tiles } from './tiles.ts';

/**
 * Sums of all samples so far, in floats: every sample reads one target and writes the other, tile by tile. The first outputs
 * are the sums of renderer/light-keeping.ts, linear RGB with the count of samples; the last is luminance by replicate.
 *
 * A sample adds to the sums that it traces. Those of a lamp that was moved or was off have fewer than the others: it is traced
 * alone until it has as many, or enough to be judged by its noise among them.
 */
export interface Accumulation {
  readonly width: number;
  readonly height: number;
  tiles: Tiles;
  /** Drawn so far, whichever sums they added to. */
  samples: number;
  /** Of the lamps and their mix that are shown now, all of them traced: samples before are of others. */
  replicatesSince: number;
  /** How many samples each sum has. */
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

/** From here on a lamp's samples need not be as many as those of the others. */
const CAUGHT_UP = 64;

/** 1 for each sum that the next sample adds to, of those `atWork`. */
export function tracedNext(accumulation: Accumulation, atWork: readonly number[]): number[] {
  const fewest = fewestSamples(accumulation, atWork);
  const counts = samplesBySum(accumulation, atWork);
  return atWork.map((one, i) => (one && (fewest >= CAUGHT_UP || counts[i] === fewest) ? 1 : 0));
}

/** Whether the next sample adds to all of those `atWork`. */
export function tracesAll(accumulation: Accumulation, atWork: readonly number[]): boolean {
  return tracedNext(accumulation, atWork).every((one, i) => one === atWork[i]);
}

/** Samples by sum. */
export function samplesBySum({ sumSamples }: Accumulation, sums: readonly unknown[]): number[] {
  return Array.from(sums, (_, i) => sumSamples[i] ?? 0);
}

/** Of the sums `atWork`, how many samples that has which has fewest. */
export function fewestSamples(accumulation: Accumulation, atWork: readonly number[]): number {
  return Math.min(...samplesBySum(accumulation, atWork).filter((_, i) => atWork[i] === 1));
}

/** The sample in the making is whole. */
export function sampleDone(accumulation: Accumulation, atWork: readonly number[]): void {
  if (!accumulation.targets) return;
  const { done, making } = accumulation.targets;
  const traced = tracedNext(accumulation, atWork);
  accumulation.targets = { done: making, making: done };
  accumulation.samples++;
  accumulation.sumSamples = samplesBySum(accumulation, traced).map((count, i) => count + traced[i]!);
  if (traced.some((one, i) => one !== atWork[i])) accumulation.replicatesSince = accumulation.samples;
}

/** Begins anew. */
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

/** The light of these sums is another from now on: they begin with nothing, the others stay. */
export function startSumsAgain(accumulation: Accumulation, sums: readonly number[]): void {
  mixOtherwise(accumulation);
  accumulation.sumSamples = accumulation.sumSamples.map((count, i) => (sums.includes(i) ? 0 : count));
}

/** Which samples the replicates are of. */
export function replicated({ samples, replicatesSince }: Accumulation): SampleRange {
  return { from: replicatesSince, to: samples };
}

/** How much less the error is than the replicates alone say, for older samples count too: of the lamp that has fewest. */
export function errorShare(accumulation: Accumulation, atWork: readonly number[]): number {
  const { from, to } = replicated(accumulation);
  return Math.sqrt((to - from) / Math.max(1, fewestSamples(accumulation, atWork)));
}

export function deleteTargets(gl: WebGL2RenderingContext, accumulation: Accumulation): void {
  if (!accumulation.targets) return;
  deleteFloatTarget(gl, accumulation.targets.done);
  deleteFloatTarget(gl, accumulation.targets.making);
  accumulation.targets = null;
}

/** From the first tile again. */
export function startSampleAgain(accumulation: Accumulation): void {
  const { width, height } = accumulation;
  accumulation.tiles = newTiles(width, height);
}
