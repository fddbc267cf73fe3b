import { deleteFloatTarget, type FloatTarget, newFloatTarget } from '../gl/float-target.ts';
import { newTiles, type Tiles } from './tiles.ts';

/**
 * Sums of all samples so far, in floats: every sample reads one target and writes the other, tile by tile. Output 0 is
 * linear RGB with the count of samples, output 1 luminance by replicate.
 */
export interface Accumulation {
  readonly width: number;
  readonly height: number;
  tiles: Tiles;
  samples: number;
  /** On the card, once something has been drawn. */
  targets: Targets | null;
}

export interface Targets {
  /** Holds all whole samples. */
  readonly done: FloatTarget;
  /** Where the next one is being written. */
  readonly making: FloatTarget;
}

const OUTPUTS = 2;

export function newAccumulation(width: number, height: number): Accumulation {
  return { width, height, tiles: newTiles(width, height), samples: 0, targets: null };
}

/** @throws GraphicsUnable if the driver refuses targets of this size. */
export function targetsOf(gl: WebGL2RenderingContext, accumulation: Accumulation): Targets {
  const { width, height, targets } = accumulation;
  if (targets) return targets;
  const done = newFloatTarget(gl, width, height, OUTPUTS);
  try {
    accumulation.targets = { done, making: newFloatTarget(gl, width, height, OUTPUTS) };
  } catch (refused) {
    deleteFloatTarget(gl, done);
    throw refused;
  }
  return accumulation.targets;
}

/** The sample in the making is whole. */
export function sampleDone(accumulation: Accumulation): void {
  if (!accumulation.targets) return;
  const { done, making } = accumulation.targets;
  accumulation.targets = { done: making, making: done };
  accumulation.samples++;
}

/** Begins anew; what was learnt about how large tiles may be stays. */
export function startAgain(accumulation: Accumulation): void {
  const { width, height, tiles } = accumulation;
  accumulation.tiles = newTiles(width, height, tiles.pixels);
  accumulation.samples = 0;
}

export function deleteTargets(gl: WebGL2RenderingContext, accumulation: Accumulation): void {
  if (!accumulation.targets) return;
  deleteFloatTarget(gl, accumulation.targets.done);
  deleteFloatTarget(gl, accumulation.targets.making);
  accumulation.targets = null;
}
