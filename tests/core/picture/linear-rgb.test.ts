import { describe, expect, it } from 'vitest';
import {
  LUMINANCE_WEIGHTS,
  linearRgbFromXyz,
  luminanceOfRgb,
  PRIMARIES,
  RGB_FROM_XYZ,
  tristimulusAt,
  XYZ_FROM_RGB,
  xyzFromLinearRgb,
} from '../../../src/core/picture/linear-rgb.ts';
import { xyOf } from '../../../src/core/spectra/chromaticity.ts';
import { halfLastDigit, IDENTITY } from '../../tolerances.ts';

describe('linear RGB', () => {
  it('has the matrix that the standard prints', () => {
    // published: IEC 61966-2-1:1999, to four decimals, via the colour-science data set
    const printed = [
      [0.4124, 0.3576, 0.1805],
      [0.2126, 0.7152, 0.0722],
      [0.0193, 0.1192, 0.9505],
    ];
    for (const [i, row] of printed.entries()) {
      for (const [j, value] of row.entries()) {
        expect(Math.abs(XYZ_FROM_RGB[i]![j]! - value)).toBeLessThan(halfLastDigit(4));
      }
    }
  });

  it('has the inverse worked out from the same primaries elsewhere', () => {
    // published: the eight-decimal matrix from XYZ that goes with IEC 61966-2-1's primaries, in encyclopaedia articles on sRGB
    const printed = [
      [3.24096994, -1.53738318, -0.49861076],
      [-0.96924364, 1.8759675, 0.04155506],
      [0.05563008, -0.20397696, 1.05697151],
    ];
    for (const [i, row] of printed.entries()) {
      for (const [j, value] of row.entries()) {
        expect(Math.abs(RGB_FROM_XYZ[i]![j]! - value)).toBeLessThan(halfLastDigit(8));
      }
    }
  });

  it('shows its primaries and its white where their chromaticities are', () => {
    // derived: by definition of the primaries
    for (const [rgb, { x, y }] of [
      [[1, 0, 0], PRIMARIES.red],
      [[0, 1, 0], PRIMARIES.green],
      [[0, 0, 1], PRIMARIES.blue],
      [[1, 1, 1], PRIMARIES.white],
    ] as const) {
      const found = xyOf(xyzFromLinearRgb(rgb));
      expect(found.x).toBeCloseTo(x, 14);
      expect(found.y).toBeCloseTo(y, 14);
    }
  });

  it('goes to XYZ and back', () => {
    const rgb = [0.2, 1.7, -0.05] as const;
    for (const [i, value] of linearRgbFromXyz(xyzFromLinearRgb(rgb)).entries()) {
      expect(value).toBeCloseTo(rgb[i]!, 14);
    }
  });

  it('weighs luminance as Y does, and the weights add up to 1', () => {
    expect(Math.abs(LUMINANCE_WEIGHTS[0] + LUMINANCE_WEIGHTS[1] + LUMINANCE_WEIGHTS[2] - 1)).toBeLessThan(
      IDENTITY,
    );
    expect(luminanceOfRgb([3, 5, 7])).toBeCloseTo(xyzFromLinearRgb([3, 5, 7])[1], 14);
  });

  it('has colours that it can only name with a negative component', () => {
    // derived: the sodium D lines, 589 nm, lie outside the triangle near x 0.569, y 0.430 (spectral locus, CIE 15)
    const [red, green, blue] = linearRgbFromXyz(tristimulusAt({ x: 0.569, y: 0.43 }));
    expect(red).toBeGreaterThan(green);
    expect(blue).toBeLessThan(0);
  });
});
