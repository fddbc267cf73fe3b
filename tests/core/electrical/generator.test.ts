import { describe, expect, it } from 'vitest';
import { generatorRating_kVA, usualGenerator_kVA } from '../../../src/core/electrical/generator.ts';

describe('generator rating', () => {
  it('needs nothing for no load, and the load itself when it may be loaded fully', () => {
    expect(generatorRating_kVA([])).toBe(0);
    expect(generatorRating_kVA([1000, 500], 1)).toBe(1.5);
  });

  it('refuses negative loads and a loading of zero', () => {
    expect(() => generatorRating_kVA([100, -1])).toThrow('load in volt-amperes is -1');
    expect(() => generatorRating_kVA([100], 0)).toThrow('generator loading is 0');
  });
});

describe('usual generators', () => {
  it('are the next that is large enough, exactly enough included', () => {
    expect(usualGenerator_kVA(3.73)).toBe(5);
    expect(usualGenerator_kVA(5)).toBe(5);
    expect(usualGenerator_kVA(5.01)).toBe(6.5);
    expect(usualGenerator_kVA(0)).toBe(1);
    expect(usualGenerator_kVA(501)).toBeNull();
  });
});
