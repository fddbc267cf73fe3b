import { describe, expect, it } from 'vitest';
import { inputUncertainty_stops, type UncertainShare } from '../../../src/core/meter/input-uncertainty.ts';

const share = (
  head: string,
  illuminance_lx: number,
  photometry_stops: number,
  hazeLoss_stops = 0,
): UncertainShare => ({
  head,
  illuminance_lx,
  photometry_stops,
  hazeLoss_stops,
});

describe('what the inputs may be off', () => {
  it('is the lamp’s own for one lamp', () => {
    // common practice, no source: metered ±1/3, file ±2/3, lumens ±1
    expect(inputUncertainty_stops([share('a', 100, 1 / 3)], 0, 0)).toBeCloseTo(1 / 3, 12);
  });

  it('shrinks where lamps are wrong independently, and does not where they share a head', () => {
    // derived: two equal halves, √(0.5² + 0.5²)·⅔ = 0.471; of one head ½·⅔ + ½·⅔ = ⅔
    expect(inputUncertainty_stops([share('a', 50, 2 / 3), share('b', 50, 2 / 3)], 0, 0)).toBeCloseTo(
      0.4714,
      4,
    );
    expect(inputUncertainty_stops([share('a', 50, 2 / 3), share('a', 50, 2 / 3)], 0, 0)).toBeCloseTo(
      2 / 3,
      12,
    );
  });

  it('adds what haze takes, at most a stop, in quadrature', () => {
    // derived: √((2/3)² + 0.5²) and √((2/3)² + 1²)
    expect(inputUncertainty_stops([share('a', 100, 2 / 3, 0.5)], 0, 0)).toBeCloseTo(0.8333, 4);
    expect(inputUncertainty_stops([share('a', 100, 2 / 3, 4)], 0, 0)).toBeCloseTo(1.2019, 4);
  });

  it('counts the sky as a stop, weighted by its share', () => {
    expect(inputUncertainty_stops([], 0, 2)).toBe(1);
    expect(inputUncertainty_stops([share('a', 50, 0)], 0, 50)).toBeCloseTo(0.5, 12);
  });

  it('counts the glow of haze as a stop', () => {
    expect(inputUncertainty_stops([share('a', 100, 0)], 25, 0)).toBeCloseTo(0.25, 12);
  });

  it('is nothing in the dark', () => {
    expect(inputUncertainty_stops([share('a', 0, 1)], 0, 0)).toBe(0);
  });
});
