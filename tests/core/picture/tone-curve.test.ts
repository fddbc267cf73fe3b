import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { srgbEncoded } from '../../../src/core/picture/srgb-transfer.ts';
import {
  DEFAULT_TONE_RANGE,
  MIDDLE_GREY,
  type ToneRange,
  toneCurve,
} from '../../../src/core/picture/tone-curve.ts';
import { halfLastDigit, IDENTITY } from '../../tolerances.ts';

const RANGES: readonly ToneRange[] = [
  DEFAULT_TONE_RANGE,
  { white_stops: 3, floor_stops: -5 },
  { white_stops: 8, floor_stops: -12 },
  { white_stops: Math.log2(1 / MIDDLE_GREY), floor_stops: -3 },
];
const slope = (display: (exposure: number) => number, x: number, h: number) =>
  (Math.log2(display(2 ** (x + h))) - Math.log2(display(2 ** x))) / h;

describe('the tone curve', () => {
  const { display, exposure } = toneCurve();

  it('shows middle grey as 18 %', () => {
    // derived: 0.18, and IEC 61966-2-1's value of it, 1.055·0.18^(1/2.4) − 0.055 = 0.4614
    expect(display(1)).toBe(0.18);
    expect(Math.abs(srgbEncoded(display(1)) - 0.4614)).toBeLessThan(halfLastDigit(4));
  });

  it('is stop for stop from four under to one over', () => {
    // derived: y = 0.18·2^x, the equation of the straight part
    for (const x of [-4, -3, -2, -1, -1 / 3, 0, 1 / 3, 1]) {
      expect(Math.abs(display(2 ** x) / (0.18 * 2 ** x) - 1)).toBeLessThan(IDENTITY);
    }
  });

  it.each(RANGES)('reaches black at the floor and white at the clip point: %j', (range) => {
    const curve = toneCurve(range);
    expect(curve.display(2 ** range.floor_stops)).toBe(0);
    expect(curve.display(2 ** (range.floor_stops + 1e-3))).toBeGreaterThan(0);
    expect(curve.display(2 ** range.white_stops)).toBe(1);
    expect(curve.display(2 ** (range.white_stops - 0.1))).toBeLessThan(1);
  });

  it.each(RANGES)('runs on without a corner where its parts meet: %j', (range) => {
    // derived: slope 1 on both sides of both joints
    const curve = toneCurve(range);
    for (const joint of [range.floor_stops / 2, 1]) {
      expect(slope(curve.display, joint, 1e-6)).toBeCloseTo(1, 4);
      expect(slope(curve.display, joint, -1e-6)).toBeCloseTo(1, 4);
    }
  });

  it('comes to white level', () => {
    expect(Math.abs(slope(display, 5.5, -1e-3))).toBeLessThan(1e-3);
  });

  it.each(RANGES)('only rises, stays within 0 to 1 and brightens nothing: %j', (range) => {
    const curve = toneCurve(range);
    fc.assert(
      fc.property(
        fc.double({ min: -20, max: 20, noNaN: true }),
        fc.double({ min: 0, max: 20, noNaN: true }),
        (x, more) => {
          const y = curve.display(2 ** x);
          expect(y).toBeGreaterThanOrEqual(0);
          expect(y).toBeLessThanOrEqual(1);
          // derived: toe and shoulder lie under the straight line, so y ≤ 0.18·L/L₀ (to rounding)
          expect(y).toBeLessThanOrEqual(0.18 * 2 ** x * (1 + IDENTITY));
          expect(curve.display(2 ** (x + more))).toBeGreaterThanOrEqual(y * (1 - IDENTITY));
        },
      ),
      { seed: 18, numRuns: 300 },
    );
  });

  it.each([
    [0, 0],
    [-1, 0],
    [Number.NEGATIVE_INFINITY, 0],
    [Number.NaN, 0],
    [Number.MIN_VALUE, 0],
    [Number.MAX_VALUE, 1],
    [Number.POSITIVE_INFINITY, 1],
  ])('takes an exposure of %d', (e, y) => {
    expect(display(e)).toBe(y);
  });

  it.each(RANGES)('is undone by its inverse: %j', (range) => {
    const curve = toneCurve(range);
    fc.assert(
      fc.property(fc.double({ min: 0, max: 1, noNaN: true }), (y) => {
        expect(Math.abs(curve.display(curve.exposure(y)) - y)).toBeLessThan(1e-9);
      }),
      { seed: 19, numRuns: 300 },
    );
    expect(Math.log2(curve.exposure(0))).toBeCloseTo(range.floor_stops, 12);
    expect(Math.log2(curve.exposure(1))).toBeCloseTo(range.white_stops, 12);
  });

  it.each([
    [{ white_stops: 2, floor_stops: -8 }, 'white is at 2 stops; it must be a number of at least 2.48'],
    [{ white_stops: Number.POSITIVE_INFINITY, floor_stops: -8 }, 'white is at Infinity stops'],
    [{ white_stops: 5, floor_stops: -2 }, 'noise floor is at -2 stops; it must be a number of at most -3'],
    [{ white_stops: 5, floor_stops: Number.NaN }, 'noise floor is at NaN stops'],
  ])('refuses %j', (range, message) => {
    expect(() => toneCurve(range)).toThrow(message);
  });

  it.each([-0.1, 1.1, Number.NaN])('has no exposure for a display light of %d', (y) => {
    expect(() => exposure(y)).toThrow(`display light is ${y}; it must be a number from 0 to 1`);
  });
});
