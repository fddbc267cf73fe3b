import { describe, expect, it } from 'vitest';
import {
  FALSE_COLOUR_SCALE,
  falseColourOf,
  falseColourPicture,
  MIDDLE_GREY_STEP,
} from '../../../src/core/picture/false-colour.ts';
import type { LinearRgb } from '../../../src/core/picture/linear-rgb.ts';
import { type Matrix3, times } from '../../../src/core/picture/matrix3.ts';
import type { Rgb8 } from '../../../src/core/picture/picture.ts';
import { srgbDecoded } from '../../../src/core/picture/srgb-transfer.ts';
import { differenceOf, labOf } from './cie-lab.ts';

const linear = (rgb: Rgb8): LinearRgb => [
  srgbDecoded(rgb[0] / 255),
  srgbDecoded(rgb[1] / 255),
  srgbDecoded(rgb[2] / 255),
];

/** published: Machado, Oliveira & Fernandes 2009, IEEE TVCG 15 (6) 1291, severity 1.0, on linear RGB, via public copies that agree. */
const SIGHT: Readonly<Record<string, Matrix3>> = {
  common: [
    [1, 0, 0],
    [0, 1, 0],
    [0, 0, 1],
  ],
  protan: [
    [0.152286, 1.052583, -0.204868],
    [0.114503, 0.786281, 0.099216],
    [-0.003882, -0.048116, 1.051998],
  ],
  deutan: [
    [0.367322, 0.860646, -0.227968],
    [0.280085, 0.672501, 0.047413],
    [-0.01182, 0.04294, 0.968881],
  ],
  tritan: [
    [1.255528, -0.076749, -0.178779],
    [-0.078411, 0.930809, 0.147602],
    [0.004733, 0.691367, 0.3039],
  ],
};
const seen = (rgb: Rgb8, sight: Matrix3) => {
  const [red, green, blue] = times(sight, linear(rgb)).map((value) => Math.min(1, Math.max(0, value)));
  return labOf([red!, green!, blue!]);
};

describe('the false-colour scale', () => {
  it('has a labelled step for each stop and one beyond each end, without a gap', () => {
    expect(FALSE_COLOUR_SCALE.map(({ label }) => label).join(' ')).toBe(
      '< \u22126 \u22125 \u22124 \u22123 \u22122 \u22121 0 +1 +2 +3 +4 +5 +6 >',
    );
    for (const [i, step] of FALSE_COLOUR_SCALE.slice(1).entries()) {
      expect(step.from_stops).toBe(FALSE_COLOUR_SCALE[i]!.to_stops);
    }
  });

  it.each([
    [0, '0'],
    [0.49, '0'],
    [0.5, '+1'],
    [-0.5, '0'],
    [-0.51, '\u22121'],
    [-2, '\u22122'],
    [6.49, '+6'],
    [6.5, '>'],
    [1e9, '>'],
    [-6.5, '\u22126'],
    [-6.51, '<'],
    [Number.NEGATIVE_INFINITY, '<'],
    [Number.POSITIVE_INFINITY, '>'],
  ])('puts %d stops into step %s', (stops, label) => {
    const step = falseColourOf(stops);
    expect(step.label).toBe(label);
    expect(stops).toBeGreaterThanOrEqual(step.from_stops);
    expect(stops).toBeLessThanOrEqual(step.to_stops);
  });

  it('refuses what is no number', () => {
    expect(() => falseColourOf(Number.NaN)).toThrow('stops is NaN');
  });

  it('marks middle grey as the one step between black and white that has no colour', () => {
    const chroma = FALSE_COLOUR_SCALE.slice(1, -1).map(({ rgb }) =>
      Math.hypot(...labOf(linear(rgb)).slice(1)),
    );
    expect(MIDDLE_GREY_STEP.label).toBe('0');
    expect(chroma[6]).toBeLessThan(1e-6);
    // derived: the muted steps have 0.45 of the chroma there is; the least is at −6
    expect(Math.min(...chroma.filter((_, i) => i !== 6))).toBeGreaterThan(15);
  });

  it('rises by equal steps of lightness', () => {
    // derived: L* = 12 + 82·(k + 6)/12, to what rounding to 8 bits can do
    for (const [i, { rgb }] of FALSE_COLOUR_SCALE.slice(1, -1).entries()) {
      expect(Math.abs(labOf(linear(rgb))[0] - (12 + (82 * i) / 12))).toBeLessThan(0.6);
    }
  });

  it.each(Object.entries(SIGHT))('keeps its order and its steps apart in %s sight', (_, sight) => {
    const colours = FALSE_COLOUR_SCALE.map(({ rgb }) => seen(rgb, sight));
    for (const [i, colour] of colours.entries()) {
      if (i > 0) expect(colour[0]).toBeGreaterThan(colours[i - 1]![0] + 2);
      // derived: 2.3 in ΔE*ab is a just noticeable difference (Mahy, Van Eycken & Oosterlinck 1994); twice that and more
      for (const other of colours.slice(0, i)) expect(differenceOf(colour, other)).toBeGreaterThan(6);
    }
  });

  it('is measured with a L*a*b* that gives the published value of pure red', () => {
    // published: sRGB red is L* 53.24, a* 80.09, b* 67.20 (from memory)
    const red = labOf([1, 0, 0]);
    for (const [i, value] of [53.24, 80.09, 67.2].entries())
      expect(Math.abs(red[i]! - value)).toBeLessThan(0.02);
  });
});

describe('a picture in false colour', () => {
  it('shows each pixel by its luminance before white balance', () => {
    // derived: blue of luminance 1 is 1/0.0722; 0 stops
    const picture = {
      width_px: 2,
      height_px: 3,
      rgb: Float64Array.of(
        1,
        1,
        1,
        0,
        0,
        1 / 0.07219231536073371,
        4,
        4,
        4,
        0.01,
        0.01,
        0.01,
        0,
        0,
        0,
        -1,
        -1,
        -1,
      ),
    };
    const { rgb } = falseColourPicture(picture);
    const shown = Array.from({ length: 6 }, (_, i) => [...rgb.subarray(3 * i, 3 * i + 3)]);
    expect(shown).toEqual(
      [0, 0, 2, Math.log2(0.01), Number.NEGATIVE_INFINITY, Number.NEGATIVE_INFINITY].map((s) => [
        ...falseColourOf(s).rgb,
      ]),
    );
  });
});
