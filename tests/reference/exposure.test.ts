import { describe, expect, it } from 'vitest';
import {
  ev100OfIlluminance,
  ev100OfLuminance,
  exposureValue,
  illuminanceOfEv100_lx,
  luminanceOfEv100_cd_m2,
} from '../../src/core/exposure/exposure-value.ts';
import { indicatedFNumber } from '../../src/core/exposure/f-number.ts';
import { keyToFill, rimToKey } from '../../src/core/exposure/lighting-ratio.ts';
import { stopsAbove } from '../../src/core/exposure/stops.ts';
import { type CameraExposure, DEFAULT_CALIBRATION, zeroOf } from '../../src/core/exposure/zero.ts';
import { fcFromLx } from '../../src/core/units/illuminance.ts';
import { EXPOSURE_STOPS, halfLastDigit } from '../tolerances.ts';

const camera = (fNumber: number, shutter_s: number, iso: number): CameraExposure => ({
  fNumber,
  shutter_s,
  iso,
  nd_stops: 0,
  loss_stops: 0,
});

describe('ISO 2720 metering', () => {
  it('has the default constants inside the ranges the standard allows', () => {
    // published: ISO 2720:1974 via the colour-hdri documentation: C 240–400 flat, 320–540 hemispherical, K 10.6–13.4
    const { flat, dome, reflected } = DEFAULT_CALIBRATION;
    expect(flat >= 240 && flat <= 400).toBe(true);
    expect(dome >= 320 && dome <= 540).toBe(true);
    expect(reflected >= 10.6 && reflected <= 13.4).toBe(true);
  });

  it('asks for 160 lx and 8 cd/m² at f/8, 1 s, ISO 100', () => {
    // published: average_illuminance(8, 1, 100) = 160 and average_luminance(8, 1, 100) = 8 in colour-hdri
    const zero = zeroOf(camera(8, 1, 100));
    expect(zero.flat_lx).toBeCloseTo(160, 9);
    expect(zero.luminance_cd_m2).toBeCloseTo(8, 9);
  });

  it('finds sunny 16 at 3200 cd/m² reflected, 64 000 lx and 87 040 lx incident', () => {
    // published: f/16, 1/100 s, ISO 100 is 3200 cd/m² (photrio.com); derived: 64 000 lx at C 250, 87 040 lx at C 340
    const zero = zeroOf(camera(16, 0.01, 100), { flat: 250, dome: 340, reflected: 12.5 });
    expect(zero.luminance_cd_m2).toBeCloseTo(3200, 9);
    expect(zero.flat_lx).toBeCloseTo(64000, 8);
    expect(zero.dome_lx).toBeCloseTo(87040, 8);
    expect(Math.abs(ev100OfLuminance(3200, 12.5) - 14.644)).toBeLessThan(1e-3);
  });

  it('needs 117.6 lx (10.93 fc) flat and 159.9 lx (14.86 fc) dome at f/2.8, 1/48 s, ISO 800', () => {
    // derived: ISO 2720 equation at C 250 and C 340
    const zero = zeroOf(camera(2.8, 1 / 48, 800), { flat: 250, dome: 340, reflected: 12.5 });
    expect(Math.abs(zero.flat_lx - 117.6)).toBeLessThan(1e-3);
    expect(Math.abs(zero.dome_lx - 159.936)).toBeLessThan(1e-3);
    expect(Math.abs(fcFromLx(zero.flat_lx) - 10.93)).toBeLessThan(halfLastDigit(2));
    expect(Math.abs(fcFromLx(zero.dome_lx) - 14.86)).toBeLessThan(halfLastDigit(2));
  });

  it('indicates f/8 for 1000 lx at 1/50 s, ISO 800', () => {
    // derived: √(1000·(1/50)·800/250) = 8
    const settings = { shutter_s: 1 / 50, iso: 800, nd_stops: 0, loss_stops: 0 };
    expect(indicatedFNumber(1000, settings, 250)).toBeCloseTo(8, 9);
    // derived: three stops of ND and lens loss leave f/2.828
    expect(indicatedFNumber(1000, { ...settings, nd_stops: 2, loss_stops: 1 }, 250)).toBeCloseTo(
      Math.sqrt(8),
      9,
    );
  });

  it('reads 250 lx flat at f/5, 1/50 s, ISO 1250', () => {
    // derived: 250·25·50/1250
    expect(zeroOf(camera(5, 1 / 50, 1250)).flat_lx).toBeCloseTo(250, 9);
  });

  it('reads 250 lx, 330 lx on the dome (+0.40 stop) and 12.5 cd/m² at f/4, 1/50 s, ISO 800', () => {
    // derived: 250·16·50/800 lx; log₂(330/250) = 0.40
    const zero = zeroOf(camera(4, 1 / 50, 800));
    expect(zero.flat_lx).toBeCloseTo(250, 9);
    expect(zero.dome_lx).toBeCloseTo(330, 9);
    expect(zero.luminance_cd_m2).toBeCloseTo(12.5, 9);
    expect(Math.abs(stopsAbove(zero.dome_lx, zero.flat_lx) - 0.4)).toBeLessThan(EXPOSURE_STOPS);
  });

  it('implies C between flat and dome for the "100 fc, ISO 100, f/2.8" rule', () => {
    // common practice, no source: 100 fc at ISO 100, 1/50 s is f/2.8; derived: it implies C = 274.6
    const C = (1076.391 * 100) / 50 / 2.8 ** 2;
    expect(Math.abs(C - 274.6)).toBeLessThan(halfLastDigit(1));
    const settings = { shutter_s: 1 / 50, iso: 100, nd_stops: 0, loss_stops: 0 };
    expect(indicatedFNumber(1076.391, settings, DEFAULT_CALIBRATION.flat)).toBeGreaterThan(2.8);
    expect(indicatedFNumber(1076.391, settings, DEFAULT_CALIBRATION.dome)).toBeLessThan(2.8);
  });

  it('has the greys that K/C implies', () => {
    // published: 15.7 % for K 12.5 (encyclopedia copies), 17.6 % for K 14 (yedlin.net), both at C 250; ρ = πL₀/E₀
    const grey = (reflected: number) => {
      const zero = zeroOf(camera(4, 1 / 50, 800), { ...DEFAULT_CALIBRATION, reflected });
      return (Math.PI * zero.luminance_cd_m2) / zero.flat_lx;
    };
    expect(Math.abs(grey(12.5) - 0.15708)).toBeLessThan(1e-5);
    expect(Math.abs(grey(14) - 0.17593)).toBeLessThan(1e-5);
  });

  it('sees an 18 % card in sunny-16 light 0.197 stop above its own zero', () => {
    // derived: L = 0.18·64 000/π = 3666.93 cd/m² (Lambert), against 3200 cd/m²
    const luminance_cd_m2 = (0.18 * zeroOf(camera(16, 0.01, 100)).flat_lx) / Math.PI;
    expect(Math.abs(luminance_cd_m2 - 3666.9)).toBeLessThan(0.1);
    expect(Math.abs(stopsAbove(luminance_cd_m2, 3200) - 0.1965)).toBeLessThan(1e-3);
  });

  it('differs by 0.4436 stop between C 250 and C 340', () => {
    // derived: log₂(340/250)
    expect(Math.abs(stopsAbove(340, 250) - 0.4436)).toBeLessThan(1e-4);
  });
});

describe('exposure value', () => {
  it('is 0 at f/1, 1 s and 14.966 at f/16, 1/125 s', () => {
    // published: common definition, nominal EV 15 (ISO 2721 via pixelsham.com)
    expect(exposureValue(1, 1)).toBe(0);
    expect(Math.abs(exposureValue(16, 1 / 125) - 14.9658)).toBeLessThan(1e-4);
  });

  it('names 2.5, 80, 2560 and 81 920 lx at EV100 0, 5, 10 and 15', () => {
    // published: illuminance_to_exposure_value(2.5, 100) = 0 in colour-hdri; derived: E = 2.5·2^EV
    for (const [ev, lx] of [
      [0, 2.5],
      [5, 80],
      [10, 2560],
      [15, 81920],
    ] as const) {
      expect(illuminanceOfEv100_lx(ev, 250) / lx).toBeCloseTo(1, 12);
      expect(ev100OfIlluminance(lx, 250)).toBeCloseTo(ev, 12);
    }
  });

  it('names 0.125 cd/m² at EV100 0', () => {
    // published: luminance_to_exposure_value(0.125, 100) = 0 in colour-hdri
    expect(luminanceOfEv100_cd_m2(0, 12.5)).toBe(0.125);
    expect(ev100OfLuminance(0.125, 12.5)).toBe(0);
  });

  it('steps in the f-number series', () => {
    // published: ISO 517 series from memory: exact 2^(i/2), third stop ×1.12246; nominal f/2.8 to f/4 is 1.029 stop
    for (const [i, N] of [1, Math.SQRT2, 2, 2.8284, 4, 5.6569, 8].entries()) {
      expect(Math.abs(exposureValue(N, 1) - i)).toBeLessThan(1e-4);
    }
    expect(Math.abs(exposureValue(1.12246, 1) - 1 / 3)).toBeLessThan(1e-4);
    expect(Math.abs(exposureValue(4, 1) - exposureValue(2.8, 1) - 1.029)).toBeLessThan(halfLastDigit(3));
  });
});

describe('lighting ratios', () => {
  it('has rim:key 1.1:1, +0.13 stop, for 137 over 125 lx', () => {
    // derived: 137/125 by hand
    expect(Math.abs(rimToKey(137, 125) - 1.1)).toBeLessThan(halfLastDigit(1));
    expect(Math.abs(Math.log2(rimToKey(137, 125)) - 0.13)).toBeLessThan(EXPOSURE_STOPS);
  });

  it('has rim:key 3.0:1, +1.6 stops, for 378 over 125 lx', () => {
    // derived: 378/125 by hand
    expect(Math.abs(rimToKey(378, 125) - 3.0)).toBeLessThan(halfLastDigit(1));
    expect(Math.abs(Math.log2(rimToKey(378, 125)) - 1.6)).toBeLessThan(halfLastDigit(1));
  });

  it('calls a fill one stop under the key 3:1', () => {
    // derived: (key + fill):fill, (2 + 1):1
    expect(keyToFill(250, 125)).toBe(3);
  });
});
