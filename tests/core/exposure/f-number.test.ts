import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { indicatedFNumber } from '../../../src/core/exposure/f-number.ts';
import { zeroOf } from '../../../src/core/exposure/zero.ts';

describe('the indicated f-number', () => {
  it("is the camera's own when the light is at its zero", () => {
    // derived: N = √(E·t·S/C) inverts E₀ = C·N²/(t·S)
    const settings = fc.record({
      fNumber: fc.double({ min: 0.7, max: 45, noNaN: true }),
      shutter_s: fc.double({ min: 1e-4, max: 30, noNaN: true }),
      iso: fc.double({ min: 25, max: 25600, noNaN: true }),
      nd_stops: fc.double({ min: 0, max: 10, noNaN: true }),
      loss_stops: fc.double({ min: 0, max: 2, noNaN: true }),
    });
    fc.assert(
      fc.property(settings, (s) => {
        const zero = zeroOf(s);
        expect(indicatedFNumber(zero.flat_lx, s, 250) / s.fNumber).toBeCloseTo(1, 12);
        expect(indicatedFNumber(zero.dome_lx, s, 330) / s.fNumber).toBeCloseTo(1, 12);
      }),
      { seed: 2720, numRuns: 200 },
    );
  });

  it('is 0 in the dark and refuses negative light', () => {
    const settings = { shutter_s: 0.02, iso: 800, nd_stops: 0, loss_stops: 0 };
    expect(indicatedFNumber(0, settings, 250)).toBe(0);
    expect(() => indicatedFNumber(-1, settings, 250)).toThrow('illuminance in lux is -1');
    expect(() => indicatedFNumber(1, settings, 0)).toThrow('calibration constant is 0');
  });
});
