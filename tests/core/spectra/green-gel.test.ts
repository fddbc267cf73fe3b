import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { colourTemperatureOf } from '../../../src/core/spectra/colour-temperature.ts';
import { CLEAR_FILM_TRANSMISSION } from '../../../src/core/spectra/conversion-filter.ts';
import { greenGel } from '../../../src/core/spectra/green-gel.ts';
import { luminousFraction, tristimulusOf } from '../../../src/core/spectra/observer.ts';
import { planckSpectrum } from '../../../src/core/spectra/planck.ts';
import { FIRST_NM, product, type Spectrum, STEP_NM } from '../../../src/core/spectra/wavelengths.ts';
import { IDENTITY } from '../../tolerances.ts';

const cct_K = fc.integer({ min: 2000, max: 10_000 });
const strength = fc.double({ min: 0.01, max: 0.3, noNaN: true });

function duvOf(spectrum: Spectrum): number {
  return colourTemperatureOf(tristimulusOf(spectrum))!.duv;
}

describe('the green gel', () => {
  it('raises the Duv of a black body when plus, lowers it when minus, the more the stronger', () => {
    // derived: a black body has Duv 0 (C2 of the locus itself, so exactly to rounding); Duv > 0 is greenish.
    fc.assert(
      fc.property(cct_K, strength, (T, density) => {
        const lamp = planckSpectrum(T);
        const duvs = [-density, -density / 2, 0, density / 2, density].map((d) =>
          duvOf(product(lamp, greenGel(d))),
        );
        expect(duvs[2]).toBeCloseTo(0, 9);
        for (let i = 1; i < duvs.length; i++) expect(duvs[i]!).toBeGreaterThan(duvs[i - 1]!);
      }),
      { seed: 51 },
    );
  });

  it('and its opposite make a neutral density together', () => {
    // derived: 0.95²·10^−D·b·10^−D(1 − b) = 0.95²·10^−D.
    fc.assert(
      fc.property(strength, (density) => {
        const both = product(greenGel(density), greenGel(-density));
        const grey = CLEAR_FILM_TRANSMISSION ** 2 * 10 ** -density;
        for (const tau of both) expect(Math.abs(tau / grey - 1)).toBeLessThan(IDENTITY);
      }),
      { seed: 52 },
    );
  });

  it('is clear film when its density is 0', () => {
    expect([...new Set(greenGel(0))]).toEqual([CLEAR_FILM_TRANSMISSION]);
  });

  it('has its density to what it absorbs, as colour-compensating filters are numbered', () => {
    // derived from the meaning of CC30 (density 0.30 to the colour absorbed; from memory): 10^−0.3 of the film.
    const at = (spectrum: Spectrum, nm: number) => spectrum[(nm - FIRST_NM) / STEP_NM]!;
    const absorbed = CLEAR_FILM_TRANSMISSION * 10 ** -0.3;
    expect(at(greenGel(-0.3), 555)).toBeCloseTo(absorbed, 12);
    expect(at(greenGel(-0.3), 400)).toBeCloseTo(CLEAR_FILM_TRANSMISSION, 2);
    expect(at(greenGel(0.3), 555)).toBeCloseTo(CLEAR_FILM_TRANSMISSION, 12);
    expect(at(greenGel(0.3), 450)).toBeCloseTo(absorbed, 1);
    expect(at(greenGel(0.3), 680)).toBeCloseTo(absorbed, 2);
  });

  it.each([
    // published: luminous transmission in makers' swatch books, from memory; the sheets scatter by ±0.03.
    ['full plus green', 0.3, 0.76],
    ['half plus green', 0.15, 0.86],
    ['full minus green', -0.3, 0.57],
    ['half minus green', -0.15, 0.71],
  ])('%s passes about what swatches state', (_, density, transmission) => {
    for (const T of [3200, 5600])
      expect(Math.abs(luminousFraction(planckSpectrum(T), greenGel(density)) - transmission)).toBeLessThan(
        0.05,
      );
  });

  it('moves the colour temperature no further than its model says', () => {
    // derived: the limit that the model file states, at the densities of the trade.
    for (const T of [3200, 5600]) {
      for (const density of [-0.3, -0.15, 0.15, 0.3]) {
        const cct = colourTemperatureOf(tristimulusOf(product(planckSpectrum(T), greenGel(density))))!.cct_K;
        expect(Math.abs(1e6 / cct - 1e6 / T)).toBeLessThan(52);
      }
    }
  });

  it.each([0.31, -0.4, 30, Number.NaN, Number.POSITIVE_INFINITY])('refuses a density of %d', (density) => {
    expect(() => greenGel(density)).toThrow(`density of the green gel is ${density}; give −0.3 to 0.3`);
  });
});
