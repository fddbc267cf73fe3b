import { describe, expect, it } from 'vitest';
import {
  CONTRAST_FILTERS,
  contrastFilterSpectrum,
  contrastFilterWeights,
  weightsOfSensitivity,
} from '../../../src/core/monochrome/contrast-filter.ts';
import { LUMINANCE_WEIGHTS, linearRgbFromXyz } from '../../../src/core/picture/linear-rgb.ts';
import { daylightSpectrum } from '../../../src/core/spectra/daylight.ts';
import { tristimulusOf, Y_BAR } from '../../../src/core/spectra/observer.ts';
import { spectrumOfTable } from '../../../src/core/spectra/spectrum-table.ts';
import { product, type Spectrum } from '../../../src/core/spectra/wavelengths.ts';
import { publishedTables, shippedTable } from '../spectra/published-tables.ts';

const D65 = daylightSpectrum(6504, publishedTables.daylight);

const PATCHES = ['black', 'blue', 'dark-skin', 'green', 'light-skin', 'neutral-5', 'red', 'white'];

/** What panchromatic film behind a filter makes of a patch in daylight, white = 1, summed over the spectrum. */
function onFilm(filter: Readonly<Spectrum>, patch: Readonly<Spectrum>): number {
  const sum = (spectrum: Readonly<Spectrum>) =>
    spectrum.reduce((total, S, i) => total + S * filter[i]! * Y_BAR[i]!, 0);
  return sum(product(D65, patch)) / sum(D65);
}

describe('contrast filters', () => {
  it('without a filter is luminance', () => {
    // derived: ȳ is itself a sum of the colour-matching functions, with the luminance weights
    weightsOfSensitivity(Y_BAR).forEach((w, c) => {
      expect(w).toBeCloseTo(LUMINANCE_WEIGHTS[c]!, 6);
    });
  });

  it.each(CONTRAST_FILTERS)('%s takes away and never adds, and keeps neutrals', (filter) => {
    const weights = contrastFilterWeights(filter);
    expect(Math.min(...weights)).toBeGreaterThanOrEqual(0);
    expect(weights.reduce((sum, w) => sum + w)).toBeCloseTo(1, 12);
  });

  it('darkens what it holds back, in the order of the trade', () => {
    // common practice, no source: a blue sky goes darker from yellow over orange to red, and lighter through blue
    const sky = (filter: (typeof CONTRAST_FILTERS)[number]) => {
      const [r, g, b] = contrastFilterWeights(filter);
      return 0.15 * r + 0.3 * g + 0.75 * b;
    };
    expect(sky('red')).toBeLessThan(sky('orange'));
    expect(sky('orange')).toBeLessThan(sky('yellow'));
    expect(sky('yellow')).toBeLessThan(sky('blue'));
    // A green filter lightens foliage against lips.
    const [r, g] = contrastFilterWeights('green');
    expect(g).toBeGreaterThan(10 * r);
  });

  it.each(CONTRAST_FILTERS)(
    '%s is within ⅜ stop of the whole spectral sum on published patches',
    (filter) => {
      // published: reflectances of a 24-patch colour chart's red, green, blue, skins and greys (see assets/spectra/SOURCES.md).
      // derived: the spectral sum under CIE D65. The dark red patch through blue is left out: three numbers cannot tell how
      // little of its 5 % lies in the blue, and its grey is within a stop there.
      const tau = contrastFilterSpectrum(filter);
      const weights = contrastFilterWeights(filter);
      for (const name of PATCHES) {
        const patch = spectrumOfTable(shippedTable(`reflectance/${name}`), 'held');
        const white = tristimulusOf(D65)[1];
        const [X, Y, Z] = tristimulusOf(product(D65, patch));
        const rgb = linearRgbFromXyz([X / white, Y / white, Z / white]);
        const grey = weights.reduce((sum, w, c) => sum + w * rgb[c]!, 0);
        const off = Math.abs(Math.log2(grey / onFilm(tau, patch)));
        expect(off, `${name} ${off}`).toBeLessThan(filter === 'blue' && name === 'red' ? 1 : 0.375);
      }
    },
  );

  it('refuses a sensitivity that sees nothing', () => {
    expect(() => weightsOfSensitivity(Y_BAR.map(() => 0))).toThrow(RangeError);
  });
});
