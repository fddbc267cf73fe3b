import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { thirdsText } from '../../../src/core/exposure/thirds.ts';

describe('stops in thirds', () => {
  it.each([
    [0, '0'],
    [-0.1, '0'],
    [0.16, '0'],
    [0.17, '+0⅓'],
    [-0.3, '\u22120⅓'],
    [-0.86, '\u22121'],
    [1.7, '+1⅔'],
    [1.9, '+2'],
    [2, '+2'],
    [-10.4, '\u221210⅓'],
    [Number.NEGATIVE_INFINITY, '\u2212∞'],
    [Number.POSITIVE_INFINITY, '+∞'],
  ])('writes %d as %s', (stops, text) => {
    expect(thirdsText(stops)).toBe(text);
  });

  it('is never more than a sixth of a stop off, and alike on both sides of zero', () => {
    const read = (text: string) => {
      const [, sign, whole, third] = /^([+\u2212]?)(\d+)([⅓⅔]?)$/.exec(text)!;
      const size = Number(whole) + (third === '⅓' ? 1 / 3 : third === '⅔' ? 2 / 3 : 0);
      return sign === '\u2212' ? -size : size;
    };
    fc.assert(
      fc.property(fc.double({ min: -20, max: 20, noNaN: true }), (stops) => {
        expect(Math.abs(read(thirdsText(stops)) - stops)).toBeLessThanOrEqual(1 / 6 + 1e-12);
        expect(read(thirdsText(-stops)) + read(thirdsText(stops))).toBe(0);
      }),
      { seed: 3, numRuns: 300 },
    );
  });

  it('refuses what is not a number', () => {
    expect(() => thirdsText(Number.NaN)).toThrow('stops is NaN');
  });
});
