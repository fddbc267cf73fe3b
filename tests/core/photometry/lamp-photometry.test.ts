import { describe, expect, it } from 'vitest';
import { flux_lm } from '../../../src/core/photometry/flux.ts';
import {
  distributionFrom,
  type LampPhotometry,
  photometryUncertainty_stops,
} from '../../../src/core/photometry/lamp-photometry.ts';
import { synthetic, towardC } from './fixture.ts';

const ANGLES = { beam_deg: 50, field_deg: 80 };

describe('distribution from what is known of a lamp', () => {
  it('takes peak candela as they are and a meter reading as E·d²', () => {
    expect(distributionFrom({ kind: 'beam', peak_cd: 140_000, ...ANGLES })).toEqual({
      kind: 'beam',
      peak_cd: 140_000,
      ...ANGLES,
    });
    // derived: inverse square (L2): 750 lx at 4 m is 12 000 cd.
    const metered = distributionFrom({ kind: 'metered', illuminance_lx: 750, distance_m: 4, ...ANGLES });
    expect(towardC(metered, 0, 0)).toBeCloseTo(12_000, 8);
  });

  it('spreads lumens over the whole profile', () => {
    const distribution = distributionFrom({ kind: 'lumens', flux_lm: 25_000, ...ANGLES });
    // derived: its own integral, which flux.test.ts checks against closed forms.
    expect(flux_lm(distribution)).toBeCloseTo(25_000, 6);
    // derived: Φ/Ω over the 80° cone alone (17 007 cd) would be less than half of the peak that the profile needs.
    const cone_sr = 2 * Math.PI * (1 - Math.cos((40 * Math.PI) / 180));
    expect(towardC(distribution, 0, 0)).toBeGreaterThan(2 * (25_000 / cone_sr));
  });

  it('gives a uniform cone its closed form', () => {
    // derived: 1000 lm in a cone of 20° (L21): 10 476.06 cd; the 1e-6 wide edge of the profile moves it by less.
    const cone = distributionFrom({
      kind: 'lumens',
      flux_lm: 1000,
      beam_deg: 20,
      field_deg: 20 * (1 + 1e-6),
    });
    expect(Math.abs(towardC(cone, 0, 0) / 10_476.06 - 1)).toBeLessThan(3e-6);
  });

  it('makes a diffuse face Lambertian', () => {
    // derived: I0 = Φ/π (L21): 1000 lm give 318.310 cd.
    const diffuse = distributionFrom({ kind: 'diffuse', flux_lm: 1000 });
    expect(diffuse.kind).toBe('lambert');
    expect(towardC(diffuse, 0, 0)).toBeCloseTo(318.31, 3);
  });

  it('takes the table of a file', () => {
    const file = synthetic('lambert-C-h0.ies');
    expect(distributionFrom({ kind: 'file', file })).toBe(file.distribution);
  });
});

describe('figures that no lamp can have', () => {
  const cases: [LampPhotometry, RegExp][] = [
    [{ kind: 'beam', peak_cd: 0, ...ANGLES }, /peak_cd is 0: it must be a number above zero, in cd/],
    [{ kind: 'beam', peak_cd: Number.NaN, ...ANGLES }, /peak_cd is NaN/],
    [{ kind: 'beam', peak_cd: Number.POSITIVE_INFINITY, ...ANGLES }, /peak_cd is Infinity/],
    [{ kind: 'metered', illuminance_lx: -1, distance_m: 4, ...ANGLES }, /illuminance_lx is -1/],
    [{ kind: 'metered', illuminance_lx: 5, distance_m: 0, ...ANGLES }, /distance_m is 0/],
    [{ kind: 'lumens', flux_lm: 0, ...ANGLES }, /flux_lm is 0/],
    [{ kind: 'diffuse', flux_lm: -5 }, /flux_lm is -5/],
    [{ kind: 'beam', peak_cd: 1, beam_deg: 0, field_deg: 80 }, /beam_deg is 0/],
    [{ kind: 'beam', peak_cd: 1, beam_deg: 181, field_deg: 200 }, /beam_deg is 181/],
    [{ kind: 'beam', peak_cd: 1, beam_deg: 50, field_deg: 50 }, /field_deg is 50.*wider than the beam/],
    [{ kind: 'beam', peak_cd: 1, beam_deg: 50, field_deg: 360 }, /field_deg is 360.*below 360/],
    [{ kind: 'lumens', flux_lm: 1, beam_deg: Number.NaN, field_deg: 80 }, /beam_deg is NaN/],
  ];
  it.each(cases)('%j is refused', (photometry, message) => {
    expect(() => distributionFrom(photometry)).toThrow(RangeError);
    expect(() => distributionFrom(photometry)).toThrow(message);
  });
});

describe('input uncertainty', () => {
  it('grows from a meter reading to a bare flux figure', () => {
    // common practice, no source
    expect(photometryUncertainty_stops('metered')).toBeCloseTo(1 / 3, 12);
    expect(photometryUncertainty_stops('file')).toBeCloseTo(2 / 3, 12);
    expect(photometryUncertainty_stops('beam')).toBeCloseTo(2 / 3, 12);
    expect(photometryUncertainty_stops('lumens')).toBe(1);
    expect(photometryUncertainty_stops('diffuse')).toBe(1);
  });
});
