import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { times } from '../../../src/core/picture/matrix3.ts';
import { bradfordAdaptation } from '../../../src/core/picture/white-balance.ts';
import { xyOf } from '../../../src/core/spectra/chromaticity.ts';
import type { Tristimulus } from '../../../src/core/spectra/observer.ts';
import { colourDifference_dE2000 } from '../../../src/scene/colour/colour-difference.ts';
import { halfLastDigit } from '../../tolerances.ts';

type Lab = readonly [L: number, a: number, b: number];

/** D50 of the printing trade, from its x, y to four digits, which needs no adaptation. */
const D50: Tristimulus = [0.3457 / 0.3585, 1, 0.2958 / 0.3585];
/** CIE illuminant A at Y = 100 (CIE 15). */
const A: Tristimulus = [109.85, 100, 35.585];

/** CIE 15: L* a* b* back to X, Y, Z. */
function xyzOf([L, a, b]: Lab, white: Tristimulus): Tristimulus {
  const f = (L + 16) / 116;
  const part = (t: number) => (t > 6 / 29 ? t ** 3 : 3 * (6 / 29) ** 2 * (t - 4 / 29));
  return [white[0] * part(f + a / 500), white[1] * part(f), white[2] * part(f - b / 200)];
}

const scaled = ([X, Y, Z]: Tristimulus, k: number): Tristimulus => [k * X, k * Y, k * Z];

describe('CIEDE2000', () => {
  // published: G. Sharma, W. Wu, E. N. Dalal, Color Res. Appl. 30, 21 (2005), table 1, pairs 1–9, 11 and 16–34, from memory
  // and compared with a public copy of the first nine. Left out: pairs whose hues are opposite to the last digit, where the
  // formula jumps and X, Y, Z rounded in between may fall on either side.
  const pairs: readonly (readonly [pair: number, one: Lab, other: Lab, difference: number])[] = [
    [1, [50, 2.6772, -79.7751], [50, 0, -82.7485], 2.0425],
    [2, [50, 3.1571, -77.2803], [50, 0, -82.7485], 2.8615],
    [3, [50, 2.8361, -74.02], [50, 0, -82.7485], 3.4412],
    [4, [50, -1.3802, -84.2814], [50, 0, -82.7485], 1.0],
    [5, [50, -1.1848, -84.8006], [50, 0, -82.7485], 1.0],
    [6, [50, -0.9009, -85.5211], [50, 0, -82.7485], 1.0],
    [7, [50, 0, 0], [50, -1, 2], 2.3669],
    [8, [50, -1, 2], [50, 0, 0], 2.3669],
    [9, [50, 2.49, -0.001], [50, -2.49, 0.0009], 7.1792],
    [11, [50, 2.49, -0.001], [50, -2.49, 0.0011], 7.2195],
    [16, [50, 2.5, 0], [50, 0, -2.5], 4.3065],
    [17, [50, 2.5, 0], [73, 25, -18], 27.1492],
    [18, [50, 2.5, 0], [61, -5, 29], 22.8977],
    [19, [50, 2.5, 0], [56, -27, -3], 31.903],
    [20, [50, 2.5, 0], [58, 24, 15], 19.4535],
    [21, [50, 2.5, 0], [50, 3.1736, 0.5854], 1.0],
    [22, [50, 2.5, 0], [50, 3.2972, 0], 1.0],
    [23, [50, 2.5, 0], [50, 1.8634, 0.5757], 1.0],
    [24, [50, 2.5, 0], [50, 3.2592, 0.335], 1.0],
    [25, [60.2574, -34.0099, 36.2677], [60.4626, -34.1751, 39.4387], 1.2644],
    [26, [63.0109, -31.0961, -5.8663], [62.8187, -29.7946, -4.0864], 1.263],
    [27, [61.2901, 3.7196, -5.3901], [61.4292, 2.248, -4.962], 1.8731],
    [28, [35.0831, -44.1164, 3.7933], [35.0232, -40.0716, 1.5901], 1.8645],
    [29, [22.7233, 20.0904, -46.694], [23.0331, 14.973, -42.5619], 2.0373],
    [30, [36.4612, 47.858, 18.3852], [36.2715, 50.5065, 21.2231], 1.4146],
    [31, [90.8027, -2.0831, 1.441], [91.1528, -1.6435, 0.0447], 1.4441],
    [32, [90.9257, -0.5406, -0.9208], [88.6381, -0.8985, -0.7239], 1.5381],
    [33, [6.7747, -0.2908, -2.4247], [5.8714, -0.0985, -2.2286], 0.6377],
    [34, [2.0776, 0.0795, -1.135], [0.9033, -0.0636, -0.5514], 0.9082],
  ];

  it.each(pairs)('gives pair %d of the published test data', (_, one, other, difference) => {
    const found = colourDifference_dE2000(xyzOf(one, D50), xyzOf(other, D50), D50);
    expect(Math.abs(found - difference)).toBeLessThan(halfLastDigit(4) + 1e-9);
  });

  const part = fc.double({ min: 0.01, max: 1, noNaN: true });
  const colour = fc.tuple(part, part, part);

  it('is the same both ways round, and in any scale of luminance', () => {
    // derived: the formula is symmetric; X, Y, Z count relative to the white.
    fc.assert(
      fc.property(colour, colour, fc.double({ min: 1e-4, max: 1e6, noNaN: true }), (one, other, k) => {
        const there = colourDifference_dE2000(one, other, A);
        expect(colourDifference_dE2000(other, one, A)).toBeCloseTo(there, 8);
        expect(colourDifference_dE2000(scaled(one, k), scaled(other, k), scaled(A, k))).toBeCloseTo(there, 6);
      }),
      { seed: 61 },
    );
  });

  it('takes greys of any white for greys', () => {
    // derived: a grey of the white is L* alone, and for a = b = 0 the formula is ΔL*/S_L; Y = 0.184187 and 0.1 of white
    // have L* = 50 and 37.8424, S_L at their mean 43.92 being 1 + 0.015·36.95/√56.95 = 1.0734.
    for (const white of [D50, A, [0.95, 1, 1.6]] as Tristimulus[]) {
      const found = colourDifference_dE2000(scaled(white, 0.1841865), scaled(white, 0.1), white);
      expect(found).toBeCloseTo((50 - 37.8424) / 1.0734, 2);
    }
  });

  it('finds colours as different under one white as their corresponding colours are under another', () => {
    // derived: Bradford adaptation from A to D50 by the core's own matrix.
    const toD50 = bradfordAdaptation(xyOf(A), xyOf(D50));
    fc.assert(
      fc.property(colour, colour, (one, other) => {
        const there = colourDifference_dE2000(times(toD50, one), times(toD50, other), D50);
        expect(colourDifference_dE2000(one, other, scaled(A, 0.01))).toBeCloseTo(there, 6);
      }),
      { seed: 62 },
    );
  });

  it.each([
    [
      [0.1, 0.1, 0.1],
      [1, 0, 1],
    ],
    [
      [Number.NaN, 0.1, 0.1],
      [1, 1, 1],
    ],
    [
      [0.1, Number.POSITIVE_INFINITY, 0.1],
      [1, 1, 1],
    ],
  ] as [Tristimulus, Tristimulus][])('refuses %j under the white %j', (xyz, white) => {
    expect(() => colourDifference_dE2000(xyz, xyz, white)).toThrow('a white with Y above zero');
  });
});
