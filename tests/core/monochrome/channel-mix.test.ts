import { describe, expect, it } from 'vitest';
import { channelMix, unitWeights } from '../../../src/core/monochrome/channel-mix.ts';

describe('channel mix', () => {
  it('adds linear red, green and blue by their weights', () => {
    // derived: 0.8·0.20 + 0.2·0.03 = 0.166; 0.8·0.03 + 0.2·0.05 = 0.034
    expect(channelMix([0.8, 0.2, 0])([0.2, 0.03, 0.03])).toBeCloseTo(0.166, 12);
    expect(channelMix([0.8, 0.2, 0])([0.03, 0.05, 0.15])).toBeCloseTo(0.034, 12);
  });

  it('keeps neutrals, negative weights or not', () => {
    // derived: Σw = 1
    for (const weights of [
      [0.2126, 0.7152, 0.0722],
      [1.6, -0.5, -0.1],
      [0, 0, 1],
    ] as const)
      expect(channelMix(weights)([0.37, 0.37, 0.37])).toBeCloseTo(0.37, 12);
  });

  it('lets a negative weight take a colour below black', () => {
    // derived: −0.4 of pure blue
    expect(channelMix([1.4, 0, -0.4])([0, 0, 1])).toBeCloseTo(-0.4, 12);
  });

  it('brings a sum rounded to a few decimals to 1, and refuses any other', () => {
    expect(unitWeights([0.33, 0.33, 0.336]).reduce((sum, w) => sum + w)).toBeCloseTo(1, 14);
    expect(() => channelMix([0.5, 0.2, 0])).toThrow(/add up to 0.7.*must add up to 1/);
    expect(() => channelMix([Number.NaN, 1, 0])).toThrow(RangeError);
    expect(() => channelMix([Number.POSITIVE_INFINITY, Number.NEGATIVE_INFINITY, 1])).toThrow(RangeError);
  });
});
