import { describe, expect, it } from 'vitest';
import { C1_RADIANCE_W_M2, C2_M_K, planckSpectrum } from '../../../src/core/spectra/planck.ts';
import { WAVELENGTHS_NM } from '../../../src/core/spectra/wavelengths.ts';

describe('black-body spectrum', () => {
  it("peaks where Wien's displacement law says", () => {
    // derived: λ_max·T = c₂/4.965114232 = 2897.8·10⁻⁶ m·K, so 580 nm at 4996 K and 450 nm at 6439 K
    for (const peak_nm of [450, 500, 580, 700]) {
      const S = planckSpectrum(C2_M_K / 4.965114232 / (peak_nm * 1e-9));
      expect(WAVELENGTHS_NM[S.indexOf(Math.max(...S))]).toBe(peak_nm);
    }
  });

  it('nears the Rayleigh–Jeans law 2ckT/λ⁴ at very high temperature', () => {
    // derived: c₁T/(c₂λ⁴)·10⁻⁹ per nm, correct to first order in c₂/(2λT)
    const T = 1e8;
    const S = planckSpectrum(T);
    const lambda = 555e-9;
    const limit = (1e-9 * C1_RADIANCE_W_M2 * T) / (C2_M_K * lambda ** 4);
    expect(S[35]! / limit).toBeCloseTo(1 - C2_M_K / (2 * lambda * T), 7);
  });

  it.each([0, -300, Number.NaN, Number.POSITIVE_INFINITY])('refuses %d K', (T) => {
    expect(() => planckSpectrum(T)).toThrow(/black-body temperature/);
  });
});
