import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { radiansFromDegrees } from '../../src/core/math/angle.ts';
import { FIRST_NM, STEP_NM } from '../../src/core/spectra/wavelengths.ts';
import {
  conductorPolarised,
  conductorReflectance,
  dielectricPolarised,
  dielectricReflectance,
  type PolarisedReflectance,
  sheetReflectance,
} from '../../src/core/surfaces/fresnel.ts';
import { complexIndexSpectrum } from '../../src/core/surfaces/metal-index.ts';
import { shippedMetal } from '../core/surfaces/support/metals.ts';
import { halfLastDigit } from '../tolerances.ts';

const cosine = (angle_deg: number) => Math.cos(radiansFromDegrees(angle_deg));

describe('dielectric reflectance', () => {
  it.each([
    [1.5, 0.04],
    [1.333, 0.020373],
    [1.52, 0.04258],
  ])('of n = %f straight on is %f', (n, R) => {
    // derived: ((n − 1)/(n + 1))² (check value G1)
    expect(Math.abs(dielectricReflectance(1, n) - R)).toBeLessThan(halfLastDigit(6));
  });

  it.each([
    [1.5, 56.3099],
    [1.333, 53.1232],
    [1.52, 56.6593],
  ])('of n = %f has no p part at Brewster’s angle, %f°', (n, brewster_deg) => {
    // published: Brewster's law, tan θ = n (check value G2)
    expect(Math.abs((Math.atan(n) * 180) / Math.PI - brewster_deg)).toBeLessThan(halfLastDigit(4));
    const { s, p } = dielectricPolarised(Math.cos(Math.atan(n)), n);
    expect(p).toBeLessThan(1e-30);
    // derived: at Brewster's angle Rs = ((n² − 1)/(n² + 1))²
    expect(Math.abs(s - ((n * n - 1) / (n * n + 1)) ** 2)).toBeLessThan(1e-12);
    // It is a minimum: a tenth of a degree to either side there is some.
    for (const off_deg of [-0.1, 0.1])
      expect(dielectricPolarised(cosine(brewster_deg + off_deg), n).p).toBeGreaterThan(1e-8);
  });

  it.each([
    [45, 0.09201, 0.00847, 0.05024],
    [60, 0.17657, 0.0018, 0.08919],
    [75, 0.39936, 0.10677, 0.25306],
    [85, 0.73235, 0.49325, 0.6128],
  ])('of n = 1.5 at %f° has Rs %f, Rp %f, mean %f', (angle_deg, s, p, mean) => {
    // derived: Fresnel's equations, computed elsewhere (check value G3)
    const R = dielectricPolarised(cosine(angle_deg), 1.5);
    expect(Math.abs(R.s - s)).toBeLessThan(1e-5);
    expect(Math.abs(R.p - p)).toBeLessThan(1e-5);
    expect(Math.abs(dielectricReflectance(cosine(angle_deg), 1.5) - mean)).toBeLessThan(1e-5);
  });

  it('is not what Schlick’s approximation gives', () => {
    // derived: Schlick 1994 against the exact equations for n = 1.5 (check value G4): at most +0.0357, at 84.95°;
    // −23.2 % at 55.6°, +6.5 % at 82.6°
    let [most, mostAt, low, lowAt, high, highAt] = [0, 0, 0, 0, 0, 0];
    for (let angle_deg = 0; angle_deg < 90; angle_deg += 0.05) {
      const c = cosine(angle_deg);
      const exact = dielectricReflectance(c, 1.5);
      const error = 0.04 + 0.96 * (1 - c) ** 5 - exact;
      if (Math.abs(error) > Math.abs(most)) [most, mostAt] = [error, angle_deg];
      if (error / exact < low) [low, lowAt] = [error / exact, angle_deg];
      if (error / exact > high) [high, highAt] = [error / exact, angle_deg];
    }
    expect(most).toBeCloseTo(0.0357, 3);
    expect(Math.abs(mostAt - 84.95)).toBeLessThan(0.1);
    expect(low).toBeCloseTo(-0.232, 3);
    expect(Math.abs(lowAt - 55.6)).toBeLessThan(0.1);
    expect(high).toBeCloseTo(0.065, 3);
    expect(Math.abs(highAt - 82.6)).toBeLessThan(0.2);
  });

  it('makes a window pane of two faces reflect 0.076923 straight on', () => {
    // derived: 2R/(1 + R), n = 1.5 (check value G5)
    expect(Math.abs(sheetReflectance(dielectricReflectance(1, 1.5)) - 0.076923)).toBeLessThan(1e-6);
  });
});

describe('metals', () => {
  it.each([
    ['aluminium', 0.9154],
    ['chromium', 0.5545],
    ['iron', 0.5124],
    ['nickel', 0.6443],
    ['silver', 0.9831],
    ['stainless-steel', 0.6408],
  ] as const)('%s reflects %f at 550 nm, straight on', (name, R) => {
    // published: n, k of Rakić 1995, Johnson & Christy 1972 and 1974, Karlsson & Ribbing 1982 (check value G6)
    const { n, k } = complexIndexSpectrum(shippedMetal(name));
    const at = (550 - FIRST_NM) / STEP_NM;
    expect(Math.abs(conductorReflectance(1, n[at]!, k[at]!) - R)).toBeLessThan(halfLastDigit(4));
  });

  it('aluminium at 550 nm and 60° has Rs 0.9571, Rp 0.8436', () => {
    // derived: complex Fresnel equations, computed two ways (check value G8); n, k of Rakić 1995 at 550 nm
    const { s, p } = conductorPolarised(0.5, 1.0151918, 6.6272831);
    expect(Math.abs(s - 0.9571)).toBeLessThan(halfLastDigit(4));
    expect(Math.abs(p - 0.8436)).toBeLessThan(halfLastDigit(4));
  });
});

/** derived: own table of Fresnel reflectances, computed with complex arithmetic; columns as its first line says. */
const [, ...rows] = readFileSync(new URL('../fixtures/fresnel-table.csv', import.meta.url), 'utf8')
  .trim()
  .split('\n');

describe('the Fresnel table', () => {
  it('holds six surfaces at fifteen angles', () => {
    expect(rows).toHaveLength(90);
  });

  it('agrees to its last digit', () => {
    for (const row of rows) {
      const [n, k, angle_deg, s, p, mean] = row.split(',').slice(1).map(Number) as [
        number,
        number,
        number,
        number,
        number,
        number,
      ];
      const c = cosine(angle_deg);
      const R: PolarisedReflectance = k === 0 ? dielectricPolarised(c, n) : conductorPolarised(c, n, k);
      const unpolarised = k === 0 ? dielectricReflectance(c, n) : conductorReflectance(c, n, k);
      // The metals' n and k are themselves rounded to seven decimals, and Brewster's angle to four.
      const exact = k === 0 && Number.isInteger(angle_deg);
      const tolerance = exact ? halfLastDigit(8) * 1.001 : Number.isInteger(angle_deg) ? 2e-8 : 1e-6;
      expect(Math.abs(R.s - s), row).toBeLessThan(tolerance);
      expect(Math.abs(R.p - p), row).toBeLessThan(tolerance);
      expect(Math.abs(unpolarised - mean), row).toBeLessThan(tolerance);
    }
  });
});
