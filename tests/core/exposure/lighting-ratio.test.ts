import { describe, expect, it } from 'vitest';
import { keyToFill, rimToKey } from '../../../src/core/exposure/lighting-ratio.ts';

describe('lighting ratios', () => {
  it('counts the fill twice in key:fill', () => {
    // derived: (key + fill):fill; equal lamps are 2:1, one stop apart 3:1, no key 1:1
    expect([keyToFill(100, 100), keyToFill(200, 100), keyToFill(0, 100)]).toEqual([2, 3, 1]);
  });

  it('compares the rim with the key alone', () => {
    expect(rimToKey(300, 100)).toBe(3);
  });

  it('is infinite against nothing, and no number when there is no light at all', () => {
    expect(keyToFill(100, 0)).toBe(Number.POSITIVE_INFINITY);
    expect(rimToKey(100, 0)).toBe(Number.POSITIVE_INFINITY);
    expect(keyToFill(0, 0)).toBeNaN();
    expect(rimToKey(0, 0)).toBeNaN();
  });

  it('refuses negative light', () => {
    expect(() => keyToFill(-1, 1)).toThrow('key in lux is -1');
    expect(() => keyToFill(1, -1)).toThrow('fill in lux is -1');
    expect(() => rimToKey(-1, 1)).toThrow('rim in lux is -1');
  });
});
