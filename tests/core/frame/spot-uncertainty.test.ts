import { describe, expect, it } from 'vitest';
import { type SpotShare, spotUncertainty_stops } from '../../../src/core/frame/spot-uncertainty.ts';

const share = (more: Partial<SpotShare>): SpotShare => ({
  head: 'a',
  surface_cd_m2: 10,
  haze_cd_m2: 0,
  photometry_stops: 0,
  hazeLoss_stops: 0,
  ...more,
});

// Expected values are derived from the stops that the inputs are known to: common practice, no source.
describe('what the inputs may put a spot reading off', () => {
  it('is lamp and reflectance in quadrature for one lamp on one surface', () => {
    // derived: √((1/3)² + (1/2)²) and, by lumens, √(1² + (1/2)²)
    expect(spotUncertainty_stops([share({ photometry_stops: 1 / 3 })], 0, 10)).toBeCloseTo(0.6009, 4);
    expect(spotUncertainty_stops([share({ photometry_stops: 1 })], 0, 10)).toBeCloseTo(1.118, 4);
  });

  it('leaves reflectance out where nothing reflects: on a lamp’s own face', () => {
    expect(spotUncertainty_stops([share({ photometry_stops: 2 / 3 })], 0, 0)).toBeCloseTo(2 / 3, 12);
  });

  it('shrinks for lamps that are wrong independently, and not for lamps of one head', () => {
    // derived: √(2·(½·⅔)²) = 0.4714
    const lamps = (other: string) => [
      share({ surface_cd_m2: 5, photometry_stops: 2 / 3 }),
      share({ surface_cd_m2: 5, photometry_stops: 2 / 3, head: other }),
    ];
    expect(spotUncertainty_stops(lamps('b'), 0, 0)).toBeCloseTo(0.4714, 4);
    expect(spotUncertainty_stops(lamps('a'), 0, 0)).toBeCloseTo(2 / 3, 12);
  });

  it('counts the glow of haze as a stop, by its share', () => {
    // derived: glow is 30 of 40: 0.75; the surface's 10 of 40 by half a stop: 0.125; together √(0.75² + 0.125²)
    expect(spotUncertainty_stops([share({ haze_cd_m2: 30 })], 0, 10)).toBeCloseTo(0.7603, 4);
  });

  it('counts what haze takes on the way, at most a stop, for the light that went that way', () => {
    // derived: loss 0.4 of a stop for half of the light, and the glow of the other half: 0.2 + 0.5 straight
    const half = { surface_cd_m2: 5, haze_cd_m2: 5 };
    expect(spotUncertainty_stops([share({ ...half, hazeLoss_stops: 0.4 })], 0, 0)).toBeCloseTo(0.7, 12);
    expect(spotUncertainty_stops([share({ ...half, hazeLoss_stops: 9 })], 0, 0)).toBeCloseTo(1, 12);
  });

  it('counts the sky as a stop, by its share', () => {
    expect(spotUncertainty_stops([], 2, 0)).toBe(1);
    // derived: √(1² + (1/2)²)
    expect(spotUncertainty_stops([], 2, 2)).toBeCloseTo(1.118, 4);
  });

  it('is nothing in the dark', () => {
    expect(spotUncertainty_stops([share({ surface_cd_m2: 0, photometry_stops: 1 })], 0, 0)).toBe(0);
    expect(spotUncertainty_stops([], 0, 0)).toBe(0);
  });
});
