import { describe, expect, it } from 'vitest';
import { LUMINANCE_WEIGHTS, linearRgbFromXyz } from '../../../src/core/picture/linear-rgb.ts';
import { luminousFraction, tristimulusOf } from '../../../src/core/spectra/observer.ts';
import { FIRST_NM, LAST_NM, type Spectrum } from '../../../src/core/spectra/wavelengths.ts';
import { conductorReflectance } from '../../../src/core/surfaces/fresnel.ts';
import { complexIndexSpectrum, type MetalIndex, metalIndex } from '../../../src/core/surfaces/metal-index.ts';
import { illuminant } from '../spectra/published-tables.ts';
import { METAL_NAMES, type MetalName, shippedMetal } from './support/metals.ts';

const LIGHTS = ['A', 'D65'] as const;

function reflectanceSpectrum(name: MetalName, cosTheta: number): Spectrum {
  const { n, k } = complexIndexSpectrum(shippedMetal(name));
  return n.map((value, i) => conductorReflectance(cosTheta, value, k[i]!));
}

/** Luminous reflectance as a renderer in RGB gets it: the light's channels times the metal's. */
function luminousByRgb(light: Spectrum, { n, k }: MetalIndex, cosTheta: number): number {
  const rgb = linearRgbFromXyz(tristimulusOf(light));
  const luminance = (gain: (c: number) => number) =>
    rgb.reduce((sum, value, c) => sum + LUMINANCE_WEIGHTS[c]! * value * gain(c), 0);
  return luminance((c) => conductorReflectance(cosTheta, n[c]!, k[c]!)) / luminance(() => 1);
}

describe('the effective index for red, green and blue', () => {
  it.each([
    ['aluminium', 0.9133, 0.9145],
    ['chromium', 0.5538, 0.5545],
    ['stainless-steel', 0.6475, 0.6425],
  ] as const)('of %s reflects its luminous share of illuminants A and D65', (name, underA, underD65) => {
    // derived: the published index at every wavelength, V(λ) and the CIE's A and D65 (check value G7)
    const index = metalIndex(shippedMetal(name));
    for (const [light, wanted] of [
      ['A', underA],
      ['D65', underD65],
    ] as const) {
      const spectral = luminousFraction(illuminant(light), reflectanceSpectrum(name, 1));
      expect(Math.abs(spectral - wanted), `spectrum under ${light}`).toBeLessThan(2e-4);
      expect(
        Math.abs(luminousByRgb(illuminant(light), index, 1) - wanted),
        `RGB under ${light}`,
      ).toBeLessThan(2e-3);
    }
  });

  it.each(METAL_NAMES)('of %s follows the whole spectrum to every angle', (name) => {
    // derived: Fresnel at every wavelength; 3e-3 is what the opening comment of metal-index.ts claims, rounded up
    const index = metalIndex(shippedMetal(name));
    for (const light of LIGHTS) {
      for (let theta_deg = 0; theta_deg < 90; theta_deg += 2.5) {
        const c = Math.cos((theta_deg * Math.PI) / 180);
        const spectral = luminousFraction(illuminant(light), reflectanceSpectrum(name, c));
        const miss = Math.abs(luminousByRgb(illuminant(light), index, c) - spectral);
        expect(miss, `${theta_deg}° under ${light}`).toBeLessThan(3e-3);
      }
    }
  });
});

describe('a shipped metal', () => {
  it.each(METAL_NAMES)('%s covers the visible and says where it is from', (name) => {
    const { source, wavelength_nm } = shippedMetal(name);
    expect(source).toMatch(/\(19\d\d\)$/);
    expect(wavelength_nm[0]!).toBeLessThanOrEqual(FIRST_NM);
    expect(wavelength_nm[wavelength_nm.length - 1]!).toBeGreaterThanOrEqual(LAST_NM);
  });
});

describe('a malformed table', () => {
  const table = { name: 'My metal', source: '', wavelength_nm: [400, 700], n: [1, 2], k: [3, 4] };

  it.each([
    [{ ...table, n: [1, 0] }, /"My metal": row 2 has n 0, k 4; n must be above zero/],
    [{ ...table, k: [-1, 4] }, /"My metal": row 1 has n 1, k -1/],
    [{ ...table, k: [3] }, /"My metal": row 2 has n 2, k undefined/],
    [{ ...table, wavelength_nm: [400, 400] }, /"My metal": .*row 2 is at 400 nm after 400 nm/],
    [{ ...table, n: [1, Number.NaN] }, /"My metal": row 2 has n NaN/],
  ])('is refused by name and row', (bad, message) => {
    expect(() => metalIndex(bad)).toThrow(message);
  });
});
