import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { withinDisplay } from '../../../src/core/picture/gamut.ts';
import { type LinearRgb, luminanceOfRgb } from '../../../src/core/picture/linear-rgb.ts';

const component = fc.double({ min: -0.5, max: 100, noNaN: true });
const colour = fc.tuple(component, component, component).filter((rgb) => luminanceOfRgb(rgb) > 1e-3);

describe('a colour within the display', () => {
  it('has the wanted luminance and components of 0 to 1', () => {
    fc.assert(
      fc.property(colour, fc.double({ min: 0, max: 1, noNaN: true }), (rgb, y) => {
        const shown = withinDisplay(rgb, y);
        expect(luminanceOfRgb(shown)).toBeCloseTo(y, 9);
        expect(Math.min(...shown)).toBeGreaterThanOrEqual(-1e-12);
        expect(Math.max(...shown)).toBeLessThanOrEqual(1 + 1e-12);
      }),
      { seed: 709, numRuns: 500 },
    );
  });

  it('is only scaled where the display can show it', () => {
    // derived: luminance of (3, 2, 1) to a third of itself; its red takes a tenth of its room
    const rgb: LinearRgb = [0.3, 0.2, 0.1];
    for (const [i, value] of withinDisplay(rgb, luminanceOfRgb(rgb) / 3).entries()) {
      expect(value).toBeCloseTo(rgb[i]! / 3, 14);
    }
  });

  it('keeps its hue all the way to white', () => {
    // derived: mixing with grey and scaling leave the middle component's place between the others as it is
    const sodium: LinearRgb = [1, 0.45, 0.02];
    for (let stops = -8; stops < 2.4; stops += 0.1) {
      const [red, green, blue] = withinDisplay(sodium, 0.18 * 2 ** stops);
      expect((green - blue) / (red - blue)).toBeCloseTo(0.43 / 0.98, 6);
    }
    expect(withinDisplay(sodium, 1)).toEqual([1, 1, 1]);
  });

  it('pales without an edge', () => {
    // derived: the slope of blue over luminance is the same on both sides of the point where paling begins
    const light: LinearRgb = [1, 0.45, 0.02];
    const Y = luminanceOfRgb(light);
    // Paling begins where (y/Y − y)/(1 − y) = 0.6.
    const begin = 0.6 / (1 / Y - 0.4);
    const blue = (y: number) => withinDisplay(light, y)[2];
    const h = 1e-6;
    expect((blue(begin + h) - blue(begin)) / h).toBeCloseTo((blue(begin) - blue(begin - h)) / h, 3);
    expect(blue(begin) / begin).toBeCloseTo(0.02 / Y, 9);
    expect(blue(begin + 0.1) / (begin + 0.1)).toBeGreaterThan(0.04 / Y);
  });

  it('is grey where there is no luminance to speak of', () => {
    expect(withinDisplay([0, 0, 0], 0.18)).toEqual([0.18, 0.18, 0.18]);
    expect(withinDisplay([-1, 0, 0.1], 0.18)).toEqual([0.18, 0.18, 0.18]);
    expect(withinDisplay([1, 2, 3], -1)).toEqual([0, 0, 0]);
    expect(withinDisplay([1, 2, 3], 9)).toEqual([1, 1, 1]);
  });
});
