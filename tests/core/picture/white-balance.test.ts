import { describe, expect, it } from 'vitest';
import {
  linearRgbFromXyz,
  luminanceOfRgb,
  PRIMARIES,
  tristimulusAt,
} from '../../../src/core/picture/linear-rgb.ts';
import { times } from '../../../src/core/picture/matrix3.ts';
import { balancedWhite, bradfordAdaptation, whiteBalance } from '../../../src/core/picture/white-balance.ts';
import { uv1960FromXy, xyOf } from '../../../src/core/spectra/chromaticity.ts';
import { colourTemperatureAt } from '../../../src/core/spectra/colour-temperature.ts';
import { daylightXy } from '../../../src/core/spectra/daylight.ts';
import { tristimulusOf } from '../../../src/core/spectra/observer.ts';
import { planckSpectrum } from '../../../src/core/spectra/planck.ts';
import { halfLastDigit } from '../../tolerances.ts';

describe('Bradford adaptation', () => {
  it('is the published matrix from D65 to D50', () => {
    // published: B. Lindbloom, Chromatic Adaptation, with D65 (0.95047, 1, 1.08883) and D50 (0.96422, 1, 0.82521)
    const adapted = bradfordAdaptation(xyOf([0.95047, 1, 1.08883]), xyOf([0.96422, 1, 0.82521]));
    const printed = [
      [1.0478112, 0.0228866, -0.050127],
      [0.0295424, 0.9904844, -0.0170491],
      [-0.0092345, 0.0150436, 0.7521316],
    ];
    for (const [i, row] of printed.entries()) {
      for (const [j, value] of row.entries()) {
        expect(Math.abs(adapted[i]![j]! - value)).toBeLessThan(halfLastDigit(7));
      }
    }
  });
});

describe('white balance', () => {
  it.each([1000, 2000, 3200, 4000, 4300, 4999, 5000, 5600, 10000, 25000])(
    'makes the white of %d K neutral and keeps its luminance',
    (kelvin) => {
      // derived: the defining property of the von Kries transform
      const light = linearRgbFromXyz(tristimulusAt(balancedWhite(kelvin)));
      for (const component of times(whiteBalance(kelvin), light)) expect(component).toBeCloseTo(1, 12);
    },
  );

  it('takes black bodies for warm whites and daylight for cold ones', () => {
    // derived: a 3200 K black body is neutral at 3200 K, D56 at 5600 K
    const lamp = tristimulusOf(planckSpectrum(3200));
    const neutral = times(whiteBalance(3200), linearRgbFromXyz(lamp));
    for (const component of neutral) expect(component / lamp[1]).toBeCloseTo(1, 6);
    expect(balancedWhite(5600)).toEqual(daylightXy(5600));
  });

  it('does next to nothing at the display white', () => {
    // published: D65 is 6504 K (CIE 15); its chromaticity is rounded to four decimals in IEC 61966-2-1
    for (const [i, row] of whiteBalance(6504).entries()) {
      for (const [j, value] of row.entries()) expect(Math.abs(value - (i === j ? 1 : 0))).toBeLessThan(1e-3);
    }
  });

  it('never jumps and never goes back as the knob is turned', () => {
    let before = uv1960FromXy(balancedWhite(1000).x, balancedWhite(1000).y);
    for (let mired = 999; mired >= 40; mired--) {
      const { x, y } = balancedWhite(1e6 / mired);
      const uv = uv1960FromXy(x, y);
      // derived: the steepest part of either locus runs at about 4·10⁻⁴ a mired
      expect(Math.hypot(uv.u - before.u, uv.v - before.v)).toBeLessThan(8e-4);
      expect(uv.u).toBeLessThan(before.u);
      before = uv;
    }
  });

  it('between the two loci is still white of the wanted colour temperature', () => {
    const { x, y } = balancedWhite(4300);
    const found = colourTemperatureAt(uv1960FromXy(x, y));
    // derived: 4 mired is common practice's "no visible difference"; the daylight locus lies at Duv +0.003 there
    expect(Math.abs(1e6 / found.cct_K - 1e6 / 4300)).toBeLessThan(1);
    expect(found.duv).toBeGreaterThan(0);
    expect(found.duv).toBeLessThan(0.003);
  });

  it('changes the luminance of other whites by no more than it says', () => {
    // derived: the bounds quoted where the balance is explained
    const change = (light_K: number, balance_K: number) => {
      const light = linearRgbFromXyz(tristimulusAt(balancedWhite(light_K)));
      return Math.abs(Math.log2(luminanceOfRgb(times(whiteBalance(balance_K), light))));
    };
    const usual = [3200, 4300, 5600, 10000];
    for (const light_K of usual)
      for (const balance_K of usual) expect(change(light_K, balance_K)).toBeLessThan(0.15);
    expect(change(10000, 2000)).toBeLessThan(0.7);
  });

  it.each([999, 25001, Number.NaN, -5000])('refuses %d K', (kelvin) => {
    expect(() => whiteBalance(kelvin)).toThrow(
      `white balance of ${kelvin} K is out of range; give 1000 to 25000 K`,
    );
  });

  it('knows the display white', () => {
    expect(PRIMARIES.white).toEqual({ x: 0.3127, y: 0.329 });
  });
});
