import { deleteFloatTarget, type FloatTarget, newFloatTarget } from '../gl/float-target.ts';

/**
 * Sums of all samples so far, in floats: every sample reads one target and writes the other. Output 0 is linear RGB with
 * the count of samples, output 1 luminance by replicate.
 */
export interface Accumulation {
  /** Holds `samples` whole samples. */
  done: FloatTarget;
  /** Where the next one is being written, tile by tile. */
  making: FloatTarget;
  samples: number;
}

const OUTPUTS = 2;

/** @throws GraphicsUnable if the driver refuses targets of this size. */
export function newAccumulation(gl: WebGL2RenderingContext, width: number, height: number): Accumulation {
  const done = newFloatTarget(gl, width, height, OUTPUTS);
  try {
    return { done, making: newFloatTarget(gl, width, height, OUTPUTS), samples: 0 };
  } catch (refused) {
    deleteFloatTarget(gl, done);
    throw refused;
  }
}

/** The sample in the making is whole. */
export function sampleDone(accumulation: Accumulation): void {
  const { done, making } = accumulation;
  accumulation.done = making;
  accumulation.making = done;
  accumulation.samples++;
}

export function deleteAccumulation(gl: WebGL2RenderingContext, { done, making }: Accumulation): void {
  deleteFloatTarget(gl, done);
  deleteFloatTarget(gl, making);
}
