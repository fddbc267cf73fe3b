import { describe, expect, it } from 'vitest';
import { signed } from '../../src/paperwork/signed-text.ts';

describe('figures with their sign', () => {
  it.each([
    [0.54, 1, '+0.5'],
    [-1.26, 1, '\u22121.3'],
    [-0.04, 1, '0'],
    [0, 2, '0'],
    [12.4, 0, '+12'],
    [Number.NEGATIVE_INFINITY, 1, '\u2212∞'],
    [Number.POSITIVE_INFINITY, 1, '+∞'],
  ])('%s to %s decimals is %s', (value, decimals, text) => {
    expect(signed(value, decimals)).toBe(text);
  });
});
