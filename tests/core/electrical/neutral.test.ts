import { describe, expect, it } from 'vitest';
import { neutralCurrent_A, thirdHarmonicNeutral_A } from '../../../src/core/electrical/neutral.ts';

describe('neutral', () => {
  it('carries nothing of three equal phases, all of one alone, and as much as one of two equal ones', () => {
    // derived: 1 + e^(−j120°) has the length 1
    expect(neutralCurrent_A([9.2, 9.2, 9.2])).toBe(0);
    expect(neutralCurrent_A([9.2, 0, 0])).toBe(9.2);
    expect(neutralCurrent_A([0, 9.2, 9.2])).toBeCloseTo(9.2, 12);
  });

  it('refuses negative currents', () => {
    expect(() => neutralCurrent_A([1, -1, 0])).toThrow('current in amperes is -1');
    expect(() => thirdHarmonicNeutral_A(1, -0.1)).toThrow('share of the third harmonic is -0.1');
  });
});
