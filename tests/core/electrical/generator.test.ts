import { describe, expect, it } from 'vitest';
import { generatorRating_kVA } from '../../../src/core/electrical/generator.ts';

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
