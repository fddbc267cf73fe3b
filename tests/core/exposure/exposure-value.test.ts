import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  ev100OfIlluminance,
  ev100OfLuminance,
  exposureValue,
  illuminanceOfEv100_lx,
  luminanceOfEv100_cd_m2,
} from '../../../src/core/exposure/exposure-value.ts';

describe('exposure value', () => {
  it('goes to lux and to luminance and back, for any constant', () => {
    fc.assert(
      fc.property(
        fc.double({ min: -10, max: 20, noNaN: true }),
        fc.double({ min: 10, max: 540, noNaN: true }),
        (ev, constant) => {
          expect(ev100OfIlluminance(illuminanceOfEv100_lx(ev, constant), constant)).toBeCloseTo(ev, 11);
          expect(ev100OfLuminance(luminanceOfEv100_cd_m2(ev, constant), constant)).toBeCloseTo(ev, 11);
        },
      ),
      { seed: 2721, numRuns: 100 },
    );
  });

  it('is −Infinity in the dark', () => {
    expect(ev100OfIlluminance(0, 250)).toBe(Number.NEGATIVE_INFINITY);
    expect(ev100OfLuminance(0, 12.5)).toBe(Number.NEGATIVE_INFINITY);
  });

  it('refuses what is no exposure', () => {
    expect(() => exposureValue(0, 1)).toThrow('f-number is 0');
    expect(() => exposureValue(1, 0)).toThrow('shutter time in seconds is 0');
    expect(() => ev100OfIlluminance(-1, 250)).toThrow('illuminance in lux is -1');
    expect(() => illuminanceOfEv100_lx(10, 0)).toThrow('calibration constant is 0');
  });
});
