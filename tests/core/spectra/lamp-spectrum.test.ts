import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { colourTemperatureOf } from '../../../src/core/spectra/colour-temperature.ts';
import { type LampSpectrum, lampSpectrum } from '../../../src/core/spectra/lamp-spectrum.ts';
import { tristimulusOf } from '../../../src/core/spectra/observer.ts';
import { publishedTables, shipped } from './published-tables.ts';

const colourOf = (lamp: LampSpectrum) =>
  colourTemperatureOf(tristimulusOf(lampSpectrum(lamp, publishedTables)))!;

describe('a lamp spectrum', () => {
  it.each<LampSpectrum>([
    { kind: 'planck', cct_K: 3200 },
    { kind: 'daylight', cct_K: 5600 },
    { kind: 'discharge', cct_K: 5600 },
    { kind: 'led', cct_K: 4300 },
    { kind: 'table', wavelength_nm: [400, 500, 600, 700], value: [1, 2, 3, 4] },
  ])('$kind is given per lumen', (lamp) => {
    // derived: K_m·ΣSVΔλ = 1 by construction of the unit
    expect(tristimulusOf(lampSpectrum(lamp, publishedTables))[1]).toBeCloseTo(1, 12);
  });

  it('measures the temperature asked for, within 1 K, for every kind that is moved or computed', () => {
    fc.assert(
      fc.property(
        fc.constantFrom('planck' as const, 'discharge' as const, 'led' as const),
        fc.double({ min: 40, max: 1000, noNaN: true }),
        (kind, mired) => {
          expect(Math.abs(colourOf({ kind, cct_K: 1e6 / mired }).cct_K - 1e6 / mired)).toBeLessThan(1);
        },
      ),
      { seed: 5600, numRuns: 150 },
    );
  });

  it('keeps the lines of the nearest typical discharge lamp', () => {
    // derived: 5600 K is 178.6 mired; of HP1 510, HP2 399, HP3 318, HP4 249.9 and HP5 247.6 the last is
    // nearest, and a smooth filter cannot move a line: the sample-to-sample ratios change by the filter's slope only
    const moved = lampSpectrum({ kind: 'discharge', cct_K: 5600 }, publishedTables);
    const typical = shipped('cie-hp5');
    for (let i = 1; i < 81; i++) {
      const change = moved[i]! / moved[i - 1]! / (typical[i]! / typical[i - 1]!);
      expect(Math.abs(change - 1)).toBeLessThan(0.05);
    }
  });

  it('stays white through the working range: |Duv| under 0.01 from 2500 to 10 000 K', () => {
    // regression: a moved lamp keeps roughly its own Duv; measured worst −0.0059 (discharge, 10 000 K) and −0.0026
    // (led, 3460 K)
    for (const kind of ['discharge', 'led'] as const) {
      for (let mired = 100; mired <= 400; mired += 10) {
        expect(Math.abs(colourOf({ kind, cct_K: 1e6 / mired }).duv)).toBeLessThan(0.01);
      }
    }
  });

  it('does not care about the scale of a user table', () => {
    const nm = [380, 480, 580, 680, 780];
    const one = lampSpectrum({ kind: 'table', wavelength_nm: nm, value: [1, 4, 2, 7, 3] }, publishedTables);
    const big = lampSpectrum(
      { kind: 'table', wavelength_nm: nm, value: [1e6, 4e6, 2e6, 7e6, 3e6] },
      publishedTables,
    );
    for (const [i, value] of one.entries()) expect(big[i]! / value).toBeCloseTo(1, 12);
  });

  it.each([
    [
      { kind: 'planck', cct_K: 999 },
      /planck spectrum of 999 K is out of range; give cct_K from 1000 to 25000/,
    ],
    [{ kind: 'led', cct_K: 25001 }, /1000 to 25000/],
    [{ kind: 'discharge', cct_K: Number.NaN }, /discharge spectrum of NaN K/],
    [{ kind: 'daylight', cct_K: 3200 }, /daylight of 3200 K is not defined; ask for 4000 to 25000 K/],
    [{ kind: 'table', wavelength_nm: [400, 700], value: [1, -2] }, /row 2 is -2 at 700 nm/],
    [{ kind: 'table', wavelength_nm: [400, 700], value: [0, 0] }, /no visible light/],
    [{ kind: 'table', wavelength_nm: [800, 900], value: [1, 1] }, /no visible light/],
    [{ kind: 'table', wavelength_nm: [400], value: [1] }, /at least two/],
  ] as [LampSpectrum, RegExp][])('refuses %j', (lamp, message) => {
    expect(() => lampSpectrum(lamp, publishedTables)).toThrow(RangeError);
    expect(() => lampSpectrum(lamp, publishedTables)).toThrow(message);
  });

  it('says so when it was handed no typical lamp', () => {
    const none = { ...publishedTables, led: [] };
    expect(() => lampSpectrum({ kind: 'led', cct_K: 5600 }, none)).toThrow(/no typical led spectrum/);
  });
});
