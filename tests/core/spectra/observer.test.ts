import { describe, expect, it } from 'vitest';
import { K_M_LM_PER_W, luminousFraction, tristimulusOf, Y_BAR } from '../../../src/core/spectra/observer.ts';
import { planckSpectrum } from '../../../src/core/spectra/planck.ts';
import { SAMPLES, spectrumOf } from '../../../src/core/spectra/wavelengths.ts';
import { IDENTITY } from '../../tolerances.ts';

const even = new Float64Array(SAMPLES).fill(1);

describe('tristimulus values', () => {
  it('gives 683 lm for one watt in the 5 nm band at 555 nm', () => {
    // published: SI definition of the candela, K_cd = 683 lm/W at 540 THz (555 nm)
    const watt = spectrumOf((nm) => (nm === 555 ? 1 / 5 : 0));
    expect(tristimulusOf(watt)[1]).toBeCloseTo(K_M_LM_PER_W, 9);
  });

  it('is zero for no light', () => {
    expect(tristimulusOf(new Float64Array(SAMPLES))).toEqual([0, 0, 0]);
  });
});

describe('luminous fraction', () => {
  it('is a flat filter itself, and 1 for none', () => {
    const lamp = planckSpectrum(3200);
    expect(luminousFraction(lamp, even)).toBeCloseTo(1, 12);
    expect(
      luminousFraction(
        lamp,
        even.map(() => 0.25),
      ),
    ).toBeCloseTo(0.25, 12);
  });

  it('weighs each wavelength by V(λ)', () => {
    // derived: for S = 1 the fraction above a wavelength is ΣV above it over ΣV
    const above560 = spectrumOf((nm) => (nm > 560 ? 1 : 0));
    const expected = Y_BAR.slice(37).reduce((a, b) => a + b) / Y_BAR.reduce((a, b) => a + b);
    expect(Math.abs(luminousFraction(even, above560) - expected)).toBeLessThan(IDENTITY);
  });

  it('refuses a lamp without visible light', () => {
    expect(() => luminousFraction(new Float64Array(SAMPLES), even)).toThrow(/no visible light/);
  });
});
