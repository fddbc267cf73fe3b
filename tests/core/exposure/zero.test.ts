import { describe, expect, it } from 'vitest';
import { type CameraExposure, DEFAULT_CALIBRATION, zeroOf } from '../../../src/core/exposure/zero.ts';

const base: CameraExposure = { fNumber: 4, shutter_s: 0.02, iso: 800, nd_stops: 0, loss_stops: 0 };

describe("the camera's zero", () => {
  it('doubles for each stop of ND and of lens loss, in lux and in luminance alike', () => {
    // derived: E₀ ∝ 2^(ND + loss)
    const zero = zeroOf({ ...base, nd_stops: 2, loss_stops: 1 });
    expect(zero).toEqual({ flat_lx: 2000, dome_lx: 2640, luminance_cd_m2: 100 });
  });

  it('is the calibration constant itself where t·S = N²', () => {
    // derived: E₀ = C·N²/(t·S); 4² = 0.02·800
    expect(zeroOf(base, { flat: 240, dome: 540, reflected: 14 })).toEqual({
      flat_lx: 240,
      dome_lx: 540,
      luminance_cd_m2: 14,
    });
    expect(DEFAULT_CALIBRATION).toEqual({ flat: 250, dome: 330, reflected: 12.5 });
  });

  it.each([
    [{ fNumber: 0 }, 'f-number is 0'],
    [{ shutter_s: -0.02 }, 'shutter time in seconds is -0.02'],
    [{ iso: Number.NaN }, 'ISO speed is NaN'],
    [{ nd_stops: -1 }, 'ND in stops is -1'],
    [{ loss_stops: Number.POSITIVE_INFINITY }, 'transmission loss in stops is Infinity'],
  ])('refuses %j', (wrong, message) => {
    expect(() => zeroOf({ ...base, ...wrong })).toThrow(RangeError);
    expect(() => zeroOf({ ...base, ...wrong })).toThrow(message);
  });

  it('refuses a calibration constant of zero by name', () => {
    expect(() => zeroOf(base, { flat: 250, dome: 0, reflected: 12.5 })).toThrow('constant, dome is 0');
  });
});
