import { describe, expect, it } from 'vitest';
import { nonNegative, positive } from '../../../src/core/units/quantity.ts';

describe('checked quantities', () => {
  it('returns what is in order', () => {
    expect([positive(0.1, 'a'), nonNegative(0, 'a')]).toEqual([0.1, 0]);
  });

  it.each([0, -1, Number.NaN, Number.POSITIVE_INFINITY])('%d is not above zero', (value) => {
    expect(() => positive(value, 'shutter')).toThrow(`shutter is ${value}; it must be a number above zero`);
  });

  it.each([-1e-300, Number.NaN, Number.POSITIVE_INFINITY])('%d is below zero or no number', (value) => {
    expect(() => nonNegative(value, 'ND')).toThrow(RangeError);
  });
});
