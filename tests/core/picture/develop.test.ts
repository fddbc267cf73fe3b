import { describe, expect, it } from 'vitest';
import { developed } from '../../../src/core/picture/develop.ts';
import {
  type LinearRgb,
  linearRgbFromXyz,
  luminanceOfRgb,
  tristimulusAt,
} from '../../../src/core/picture/linear-rgb.ts';
import type { LinearPicture } from '../../../src/core/picture/picture.ts';
import { srgbDecoded } from '../../../src/core/picture/srgb-transfer.ts';
import { balancedWhite } from '../../../src/core/picture/white-balance.ts';

const row = (...pixels: LinearRgb[]): LinearPicture => ({
  width_px: pixels.length,
  height_px: 1,
  rgb: Float64Array.from(pixels.flat()),
});
const at = (rgb: LinearRgb, stops: number): LinearRgb => {
  const scale = 2 ** stops / luminanceOfRgb(rgb);
  return [rgb[0] * scale, rgb[1] * scale, rgb[2] * scale];
};
const decoded = (rgb: Uint8Array): LinearRgb => {
  const [red, green, blue] = [...rgb].map((value) => srgbDecoded(value / 255));
  return [red!, green!, blue!];
};

describe('developing', () => {
  it.each([2000, 3200, 4300, 5600, 10000])(
    'makes middle grey lit by %d K middle grey when balanced for it',
    (kelvin) => {
      // derived: 255·0.4614 = 117.6
      const grey = linearRgbFromXyz(tristimulusAt(balancedWhite(kelvin)));
      expect([...developed(row(grey), { whiteBalance_K: kelvin }).rgb]).toEqual([118, 118, 118]);
    },
  );

  it('draws light of any colour as many stops from grey as it meters', () => {
    // derived: straight part of the curve; 0.06 stop is what rounding a code of 8 bits costs three stops under
    const lights: LinearRgb[] = [
      [1, 1, 1],
      [1, 0.4, 0.05],
      [0.1, 0.2, 1],
      [0, 0, 1],
      [1, 0.5, -0.1],
    ];
    for (const whiteBalance_K of [2800, 4300, 7000]) {
      for (const light of lights) {
        for (const stops of [-3, -2, -1, 0, 1]) {
          const { rgb } = developed(row(at(light, stops)), { whiteBalance_K });
          const drawn = Math.log2(luminanceOfRgb(decoded(rgb)) / 0.18);
          expect(Math.abs(drawn - stops)).toBeLessThan(0.06);
        }
      }
    }
  });

  it('shows cold light blue and warm light orange in a balance between', () => {
    const [warm, cold] = [3200, 5600].map((K) => linearRgbFromXyz(tristimulusAt(balancedWhite(K))));
    const { rgb } = developed(row(warm!, cold!), { whiteBalance_K: 4300 });
    expect(rgb[0]).toBeGreaterThan(rgb[2]!);
    expect(rgb[5]).toBeGreaterThan(rgb[3]!);
  });

  it('is black below the floor and white above the clip point, whatever the colour', () => {
    const { rgb } = developed(row(at([1, 0, 0], -9), at([0, 0, 1], 6), [-1, -1, -1], [1e30, 1, 1]), {
      whiteBalance_K: 4300,
    });
    expect([...rgb]).toEqual([0, 0, 0, 255, 255, 255, 0, 0, 0, 255, 255, 255]);
  });

  it('takes another range', () => {
    const { rgb } = developed(row(at([1, 1, 1], 3.1), at([1, 1, 1], -5.1)), {
      whiteBalance_K: 6504,
      range: { white_stops: 3, floor_stops: -5 },
    });
    expect([...rgb]).toEqual([255, 255, 255, 0, 0, 0]);
  });

  it('names the pixel that was not rendered', () => {
    const picture = { width_px: 2, height_px: 2, rgb: new Float32Array(12) };
    picture.rgb[10] = Number.NaN;
    expect(() => developed(picture, { whiteBalance_K: 4300 })).toThrow('pixel 1, 1 is (0, NaN, 0)');
    picture.rgb[10] = Number.POSITIVE_INFINITY;
    expect(() => developed(picture, { whiteBalance_K: 4300 })).toThrow('pixel 1, 1 is (0, Infinity, 0)');
  });

  it.each([
    [0, 1, 0, 'picture is 0 px wide'],
    [1, 1.5, 3, 'picture is 1.5 px high'],
    [2, 2, 11, 'picture of 2 × 2 px has 11 components; it must have 12'],
  ])('refuses a picture of %d × %d px with %d components', (width_px, height_px, components, message) => {
    const picture = { width_px, height_px, rgb: new Float32Array(components) };
    expect(() => developed(picture, { whiteBalance_K: 4300 })).toThrow(message);
  });
});

describe('developing in monochrome', () => {
  const mix = ([red, green]: LinearRgb) => 0.8 * red + 0.2 * green;

  it('draws the grey of the conversion, in linear light before the curve', () => {
    // derived: 0.8·0.5 + 0.2·0.25 = 0.45 of the zero, on the straight part: 0.18·0.45 = 0.081 of display white; a code is 1.5 %
    const { rgb } = developed(row([0.5, 0.25, 2]), { whiteBalance_K: 6504, monochrome: mix });
    expect(new Set(rgb).size).toBe(1);
    expect(Math.abs(decoded(rgb)[0] / 0.081 - 1)).toBeLessThan(0.02);
  });

  it.each([2800, 5600])('keeps the exposure of a neutral lit by %d K, whatever the weights', (kelvin) => {
    // derived: 255·0.4614 = 117.6, as in colour
    const grey = linearRgbFromXyz(tristimulusAt(balancedWhite(kelvin)));
    const development = { whiteBalance_K: kelvin, monochrome: mix };
    expect([...developed(row(grey), development).rgb]).toEqual([118, 118, 118]);
  });

  it('draws a grey below nothing black', () => {
    const { rgb } = developed(row([0, 0, 5]), {
      whiteBalance_K: 6504,
      monochrome: ([r, , b]) => 1.5 * r - 0.5 * b,
    });
    expect([...rgb]).toEqual([0, 0, 0]);
  });
});
