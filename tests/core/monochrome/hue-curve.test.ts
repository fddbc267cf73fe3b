import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { HUES, hueCurve, hueOf } from '../../../src/core/monochrome/hue-curve.ts';
import { type LinearRgb, luminanceOfRgb } from '../../../src/core/picture/linear-rgb.ts';
import { IDENTITY } from '../../tolerances.ts';

const SOME = { red: 1.5, orange: -0.5, green: -2, blue: 1, magenta: 0.3 };

/** A colour as pure as can be, by its place between the corners of the circle. */
function pure(hue_deg: number): LinearRgb {
  const component = (at: number) => {
    const off = Math.abs(((hue_deg - at + 540) % 360) - 180);
    return Math.min(1, Math.max(0, (120 - off) / 60));
  };
  return [component(0), component(120), component(240)];
}

describe('hue weighting', () => {
  it('moves a pure colour by just what is set for its hue', () => {
    // derived: c = 1 and k(h) = what is set, at the corners of the circle
    for (const hue of ['red', 'yellow', 'green', 'aqua', 'blue', 'magenta'] as const) {
      const rgb = pure(HUES[hue]);
      const stops = Math.log2(hueCurve(SOME)(rgb) / luminanceOfRgb(rgb));
      expect(stops, hue).toBeCloseTo((SOME as Record<string, number>)[hue] ?? 0, 9);
    }
  });

  it('leaves every neutral, and with nothing set every colour, where it is', () => {
    const level = fc.double({ min: 1e-4, max: 1e4, noNaN: true });
    fc.assert(
      fc.property(level, level, level, (r, g, b) => {
        expect(Math.abs(hueCurve(SOME)([r, r, r]) / luminanceOfRgb([r, r, r]) - 1)).toBeLessThan(1e-9);
        expect(hueCurve({})([r, g, b])).toBe(luminanceOfRgb([r, g, b]));
      }),
      { seed: 41, numRuns: 200 },
    );
  });

  it('moves near-neutrals by next to nothing', () => {
    // derived: c = 0.01/1.01 = 0.0099; c²·3·1.5 = 4.4e-4 stop
    const rgb: LinearRgb = [1.01, 1, 1];
    expect(Math.abs(Math.log2(hueCurve(SOME)(rgb) / luminanceOfRgb(rgb)))).toBeLessThan(4.5e-4);
  });

  it('does not depend on exposure', () => {
    // derived: hue and purity are ratios
    const curve = hueCurve(SOME);
    const rgb: LinearRgb = [0.2, 0.03, 0.05];
    const brighter = rgb.map((v) => v * 64) as unknown as LinearRgb;
    expect(Math.abs(curve(brighter) / (64 * curve(rgb)) - 1)).toBeLessThan(1e3 * IDENTITY);
  });

  it('runs smoothly all round the circle', () => {
    // derived: a half cosine over 20° and 3.5 stops (blue to purple) is at most π/2·3.5/20 = 0.275 stop a degree steep; the
    // hexagon of pure colours turns up to 1.16 times as fast as the circle
    const curve = hueCurve({ ...SOME, purple: -2.5 });
    const lift = (hue_deg: number) => {
      const rgb = pure((hue_deg + 360) % 360);
      return Math.log2(curve(rgb) / luminanceOfRgb(rgb));
    };
    for (let h = 0; h < 360; h += 0.5)
      expect(Math.abs(lift(h + 0.5) - lift(h)), `${h}`).toBeLessThan(0.5 * 0.275 * 1.16);
  });

  it('names hues from red over yellow', () => {
    // derived: corners of the circle
    expect(hueOf([1, 0, 0]).hue_deg).toBeCloseTo(0, 9);
    expect(hueOf([1, 1, 0]).hue_deg).toBeCloseTo(60, 9);
    expect(hueOf([0, 0, 5]).hue_deg).toBeCloseTo(240, 9);
    expect(hueOf([0.3, 0.3, 0.3]).purity).toBeCloseTo(0, 12);
    expect(hueOf([0, 0, 0])).toEqual({ hue_deg: 0, purity: 0 });
    // Light outside the primaries' triangle is as pure as can be.
    expect(hueOf([1, -0.1, 0]).purity).toBe(1);
  });

  it('refuses more than 3 stops', () => {
    expect(() => hueCurve({ red: 3.5 })).toThrow(/red.*3.5/);
    expect(() => hueCurve({ red: Number.NaN })).toThrow(RangeError);
  });
});
