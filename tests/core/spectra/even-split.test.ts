import { describe, expect, it } from 'vitest';
import { evenSplit, widestGap } from '../../../src/core/spectra/even-split.ts';
import { miredFromKelvin } from '../../../src/core/spectra/mired.ts';

describe('white balance between cool and warm', () => {
  it('lies as far from either, in mired', () => {
    for (const [cool, warm] of [
      [100, 400],
      [178.6, 287.6],
      [200, 200],
    ] as const) {
      const { whiteBalance_K, split_mired } = evenSplit(cool, warm);
      const M = miredFromKelvin(whiteBalance_K);
      expect(warm - M).toBeCloseTo(split_mired, 9);
      expect(M - cool).toBeCloseTo(split_mired, 9);
    }
  });

  it('is no mean of kelvins: 3200 and 5600 K balance at 4073 K', () => {
    // derived: (312.5 + 178.571)/2 = 245.536 → 4072.7 K.
    expect(evenSplit(miredFromKelvin(5600), miredFromKelvin(3200)).whiteBalance_K).toBeCloseTo(4072.7, 1);
  });
});

describe('where lamps part', () => {
  it('is the widest gap', () => {
    expect(widestGap([100, 110, 280, 290, 300], 20)).toBe(2);
    expect(widestGap([100, 290], 20)).toBe(1);
  });

  it('is nowhere where all are alike, or there is one or none', () => {
    expect(widestGap([100, 110, 125], 20)).toBe(0);
    expect(widestGap([100], 20)).toBe(0);
    expect(widestGap([], 20)).toBe(0);
  });
});
