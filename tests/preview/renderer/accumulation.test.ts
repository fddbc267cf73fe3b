import { describe, expect, it } from 'vitest';
import {
  fewestSamples,
  newAccumulation,
  sampleDone,
  startSumsAgain,
  type Targets,
  tracedNext,
  tracesAll,
} from '../../../src/preview/renderer/accumulation.ts';

const ALL = [1, 1, 1];

/** So many samples of each sum. */
function withSamples(...sumSamples: number[]) {
  const made = newAccumulation(4, 4);
  made.sumSamples = sumSamples;
  made.samples = Math.max(0, ...sumSamples);
  // Targets are only handed round here.
  made.targets = { done: {}, making: {} } as Targets;
  return made;
}

describe('which sums the next sample adds to', () => {
  it('is all of them at first, and as long as they have as many', () => {
    expect(tracedNext(withSamples(), ALL)).toEqual(ALL);
    expect(tracedNext(withSamples(9, 9, 9), ALL)).toEqual(ALL);
    expect(tracesAll(withSamples(9, 9, 9), ALL)).toBe(true);
  });

  it('is that alone which has fewest, until it has caught up', () => {
    const made = withSamples(9, 9, 7);
    expect(tracedNext(made, ALL)).toEqual([0, 0, 1]);
    expect(tracesAll(made, ALL)).toBe(false);
    sampleDone(made, ALL);
    sampleDone(made, ALL);
    expect(made.sumSamples).toEqual([9, 9, 9]);
    expect(tracedNext(made, ALL)).toEqual(ALL);
    // Replicates are of samples of all, and begin only now.
    expect([made.samples, made.replicatesSince]).toEqual([11, 11]);
  });

  it('is never one whose lamp is off, which holds none up', () => {
    expect(tracedNext(withSamples(9, 2, 9), [1, 0, 1])).toEqual([1, 0, 1]);
    expect(fewestSamples(withSamples(9, 2, 9), [1, 0, 1])).toBe(9);
  });

  it('is all once the one behind has samples enough to be judged among them', () => {
    expect(tracedNext(withSamples(900, 63, 900), ALL)).toEqual([0, 1, 0]);
    expect(tracedNext(withSamples(900, 64, 900), ALL)).toEqual(ALL);
  });

  it('begins anew for a sum whose light is another', () => {
    const made = withSamples(20, 20, 20);
    startSumsAgain(made, [1]);
    expect(made.sumSamples).toEqual([20, 0, 20]);
    expect(tracedNext(made, ALL)).toEqual([0, 1, 0]);
  });
});
