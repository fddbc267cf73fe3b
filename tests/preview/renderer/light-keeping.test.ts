import { describe, expect, it } from 'vitest';
import { luminanceOfRgb } from '../../../src/core/picture/linear-rgb.ts';
import {
  keepingFor,
  keptTexels,
  type Mix,
  servesAlso,
  sumFactors,
  sumsAtWork,
  weightOf,
} from '../../../src/preview/renderer/light-keeping.ts';

/** Outputs that every WebGL2 driver has at least four of; most have eight. */
const OUTPUTS = 8;
const PIXELS = 640 * 360;

const greys = (...levels: number[]): Mix => levels.map((level) => [level, level, level]);

describe('which lamp’s light goes to which sum', () => {
  it('is one sum for all where the driver draws into no more, or where the frame is too large', () => {
    const one = { sums: 1, sumOf: [0, 0, 0] };
    expect(keepingFor(greys(1, 1, 1), [], PIXELS, 2)).toEqual(one);
    // derived: four sums and the replicates, 16 bytes a pixel, twice, are 160 bytes: over 400 MB from 2.5 million pixels on
    expect(keepingFor(greys(1, 1, 1), [], 2.5e6, OUTPUTS)).toEqual({ sums: 4, sumOf: [1, 2, 3] });
    expect(keepingFor(greys(1, 1, 1), [], 2.5e6 + 1, OUTPUTS)).toEqual(one);
  });

  it('is a sum of its own for every lamp as long as there are sums, the first being the sky’s', () => {
    expect(keepingFor([], [], PIXELS, OUTPUTS)).toEqual({ sums: 1, sumOf: [] });
    expect(keepingFor(greys(1, 1, 1), [], PIXELS, OUTPUTS).sums).toBe(4);
    for (const lamps of [1, 3, 4, 6]) {
      const { sums, sumOf } = keepingFor(greys(...Array<number>(lamps).fill(1)), [], PIXELS, OUTPUTS);
      expect(new Set(sumOf).size).toBe(lamps);
      expect(Math.min(...sumOf)).toBeGreaterThan(0);
      expect(Math.max(...sumOf)).toBeLessThan(sums);
    }
  });

  it('goes to those touched last, then to the brightest, where lamps are more than sums', () => {
    const mix = greys(0.1, 0.2, 0.3, 0.4, 0.5, 0.6, 0.7, 0.8);
    // derived: six of eight have one; by light these are all but the first two
    expect(keepingFor(mix, [], PIXELS, OUTPUTS).sumOf).toEqual([0, 0, 6, 5, 4, 3, 2, 1]);
    // derived: lamp 0, touched last, and lamp 1 come first and put out lamps 2 and 3
    expect(keepingFor(mix, [0, 1], PIXELS, OUTPUTS).sumOf).toEqual([1, 2, 0, 0, 6, 5, 4, 3]);
  });

  it('goes to a lamp once, touched and bright though it be', () => {
    expect(keepingFor(greys(1, 0.5), [0, 1], PIXELS, OUTPUTS)).toEqual({ sums: 4, sumOf: [1, 2] });
  });
});

describe('how much a lamp counts', () => {
  it('is its luminance, a thousandth of its strongest channel where colour leaves less, nothing when off', () => {
    expect(weightOf([0.5, 0.5, 0.5])).toBeCloseTo(0.5, 12);
    expect(weightOf([0, 0, 0])).toBe(0);
    // A colour outside the gamut has a negative channel, and here more of it than the others make up for.
    expect(luminanceOfRgb([0.1, -1, 2])).toBeLessThan(0);
    expect(weightOf([0.1, -1, 2])).toBeCloseTo(0.002, 12);
  });
});

describe('the numbers that the card gets', () => {
  const keeping = { sums: 4, sumOf: [0, 2, 1] };
  const mix: Mix = [
    [0.25, 0.5, 1],
    [0, 0, 0],
    [2, 3, 4],
  ];

  it('multiply a lamp’s light before it is summed or after, never both and never neither', () => {
    const { width, height, data } = keptTexels(keeping, mix, [1, 1, 0, 0]);
    const factors = sumFactors(keeping, mix);
    expect([width, height, factors.length]).toEqual([3, 2, 12]);
    mix.forEach((factor, lamp) => {
      const [r, g, b, sum] = data.subarray(4 * lamp, 4 * lamp + 4);
      expect(sum).toBe(keeping.sumOf[lamp]);
      const after = factors.slice(3 * sum!, 3 * sum! + 3);
      expect([r, g, b].map((before, c) => before! * after[c]!)).toEqual(factor);
    });
    // Only those whose sum is traced are chosen; all that shine are seen.
    const weights = mix.map((f) => Math.fround(weightOf(f)));
    expect([0, 1, 2].map((lamp) => data[4 * (3 + lamp)])).toEqual([weights[0], 0, weights[2]]);
    expect([0, 1, 2].map((lamp) => data[4 * (3 + lamp) + 1])).toEqual(weights);
  });

  it('leave sums without a lamp black, and the first, that of the sky, as it is', () => {
    const factors = sumFactors(keeping, mix);
    expect(factors.slice(0, 3)).toEqual([1, 1, 1]);
    expect(factors.slice(9)).toEqual([0, 0, 0]);
  });

  it('are of the sky and of lamps that are on', () => {
    expect(sumsAtWork(keeping, mix)).toEqual([1, 1, 0, 0]);
  });

  it('hold for a scene without lamps', () => {
    const none = keepingFor([], [], PIXELS, OUTPUTS);
    expect(keptTexels(none, [], [1]).data).toEqual(new Float32Array(8));
    expect(sumFactors(none, [])).toEqual([1, 1, 1]);
    expect(sumsAtWork(none, [])).toEqual([1]);
  });
});

describe('what was summed for one mix', () => {
  it('serves another in which only lamps with a sum of their own differ', () => {
    const keeping = { sums: 4, sumOf: [0, 1] };
    expect(servesAlso(keeping, greys(1, 1), greys(1, 0.2))).toBe(true);
    expect(servesAlso(keeping, greys(1, 1), greys(1, 0))).toBe(true);
    expect(servesAlso(keeping, greys(1, 1), greys(0.5, 1))).toBe(false);
  });
});
