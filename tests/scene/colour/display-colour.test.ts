import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { developed } from '../../../src/core/picture/develop.ts';
import type { LinearRgb } from '../../../src/core/picture/linear-rgb.ts';
import { displayHex } from '../../../src/scene/colour/display-colour.ts';

const component = fc.double({ min: 0, max: 30, noNaN: true });
const DEVELOPMENT = { whiteBalance_K: 5000 };

/** The one pixel of a frame of this light, as hex. */
function inFrame(rgb: LinearRgb, zero_cd_m2: number): string {
  const pixel = developed(
    { width_px: 1, height_px: 1, rgb: Float64Array.from(rgb, (v) => v / zero_cd_m2) },
    DEVELOPMENT,
  );
  return `#${Buffer.from(pixel.rgb).toString('hex')}`;
}

describe('a swatch of light', () => {
  it('is middle grey for light of the camera’s white at its zero', () => {
    // derived: 18 % of display white is 117.7 of 255 in sRGB, 0x76
    expect(displayHex([12.5, 12.5, 12.5], 12.5, { whiteBalance_K: 6504 })).toMatch(/^#7[567]7[567]7[567]$/);
    expect(displayHex([0, 0, 0], 12.5, DEVELOPMENT)).toBe('#000000');
    expect(displayHex([1e6, 1e5, 1e6], 12.5, DEVELOPMENT)).toBe('#ffffff');
  });

  it('is what the frame draws, wherever a display has the colour', () => {
    // derived: pale light under +1 stop of zero is within the display
    const pale = fc.tuple(component, component, component).map(([r, g, b]): LinearRgb => {
      const base = 60;
      return [base + r, base + g, base + b].map((v) => v / 10) as unknown as LinearRgb;
    });
    fc.assert(
      fc.property(pale, (rgb) => {
        expect(displayHex(rgb, 12.5, DEVELOPMENT)).toBe(inFrame(rgb, 12.5));
      }),
      { seed: 4, numRuns: 200 },
    );
  });

  it('follows a camera in monochrome', () => {
    // derived: the conversion takes red alone, so three equal components
    const monochrome = (rgb: LinearRgb) => rgb[0];
    expect(displayHex([9, 1, 30], 12.5, { ...DEVELOPMENT, monochrome })).toMatch(/^#(..)\1\1$/);
  });

  it('refuses a camera without a zero', () => {
    for (const zero of [0, -1, Number.NaN]) {
      expect(() => displayHex([1, 1, 1], zero, DEVELOPMENT)).toThrow('it must be above 0');
    }
  });
});
