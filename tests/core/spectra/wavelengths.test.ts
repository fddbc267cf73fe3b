import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  product,
  resampled,
  SAMPLES,
  scaled,
  spectrumOf,
  WAVELENGTHS_NM,
} from '../../../src/core/spectra/wavelengths.ts';
import { IDENTITY } from '../../tolerances.ts';

describe('the wavelength grid', () => {
  it('runs from 380 to 780 nm in 81 samples', () => {
    expect([WAVELENGTHS_NM.length, WAVELENGTHS_NM[0], WAVELENGTHS_NM[80]]).toEqual([81, 380, 780]);
  });

  it('multiplies and scales sample by sample', () => {
    // derived: (λ)·(2)·3 at 380 nm and 780 nm
    const doubled = scaled(
      product(
        spectrumOf((nm) => nm),
        new Float64Array(SAMPLES).fill(2),
      ),
      3,
    );
    expect([doubled[0], doubled[80]]).toEqual([2280, 4680]);
  });
});

describe('resampling a table', () => {
  it('gives a straight line back exactly, whatever the spacing of its rows', () => {
    // derived: linear interpolation is exact for a line
    const line = resampled([370, 383, 500, 555.5, 800], [370, 383, 500, 555.5, 800], 'zero');
    for (const [i, nm] of WAVELENGTHS_NM.entries())
      expect(Math.abs(line[i]! / nm - 1)).toBeLessThan(IDENTITY);
  });

  it('is zero, or held, outside the table as asked', () => {
    const zero = resampled([500, 600], [2, 4], 'zero');
    const held = resampled([500, 600], [2, 4], 'held');
    // derived: 495, 500, 550, 600, 605 nm are samples 23, 24, 34, 44, 45
    expect([23, 24, 34, 44, 45].map((i) => zero[i])).toEqual([0, 2, 3, 4, 0]);
    expect([23, 24, 34, 44, 45].map((i) => held[i])).toEqual([2, 2, 3, 4, 4]);
  });

  it('returns a table on the grid itself unchanged, for any values', () => {
    fc.assert(
      fc.property(
        fc.array(fc.double({ min: 0, max: 1e6, noNaN: true }), { minLength: SAMPLES, maxLength: SAMPLES }),
        (values) => {
          expect([...resampled(WAVELENGTHS_NM, values, 'zero')]).toEqual(values.map((v) => v + 0));
        },
      ),
      { seed: 380780, numRuns: 50 },
    );
  });

  it.each([
    [[500], [1], '1 rows; give at least two'],
    [[500, 600], [1], '2 wavelengths and 1 values'],
    [[500, 500], [1, 1], 'row 2 is at 500 nm after 500 nm'],
    [[600, 500], [1, 1], 'sort the rows'],
    [[500, 600], [1, Number.NaN], 'row 2 is (600 nm, NaN)'],
    [[Number.POSITIVE_INFINITY, 600], [1, 1], 'row 1'],
  ])('refuses %j with %j and says what to mend', (nm, value, message) => {
    expect(() => resampled(nm, value, 'zero')).toThrow(RangeError);
    expect(() => resampled(nm, value, 'zero')).toThrow(message);
  });
});
