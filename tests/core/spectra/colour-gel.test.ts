import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { type ColourBand, colourGel } from '../../../src/core/spectra/colour-gel.ts';
import { FIRST_NM, STEP_NM } from '../../../src/core/spectra/wavelengths.ts';
import { IDENTITY } from '../../tolerances.ts';

const at = (spectrum: Float64Array, nm: number) => spectrum[(nm - FIRST_NM) / STEP_NM]!;
const plain = { softness_nm: 20, top: 0.9, floor: 0.1 };

const edge_nm = fc.integer({ min: 76, max: 156 }).map((i) => 5 * i);
const band: fc.Arbitrary<ColourBand> = fc.oneof(
  fc.record({ shape: fc.constantFrom('long-pass', 'short-pass'), edge_nm }),
  fc.record({
    shape: fc.constantFrom('band-pass', 'notch'),
    centre_nm: edge_nm,
    width_nm: fc.integer({ min: 5, max: 400 }),
  }),
);
const gel = fc.record({
  band,
  softness_nm: fc.integer({ min: 5, max: 200 }),
  top: fc.double({ min: 0.5, max: 0.95, noNaN: true }),
  floor: fc.double({ min: 0, max: 0.4, noNaN: true }),
});

function opposite(band: ColourBand): ColourBand {
  switch (band.shape) {
    case 'long-pass':
      return { ...band, shape: 'short-pass' };
    case 'short-pass':
      return { ...band, shape: 'long-pass' };
    case 'band-pass':
      return { ...band, shape: 'notch' };
    case 'notch':
      return { ...band, shape: 'band-pass' };
  }
}

describe('a colour gel', () => {
  it('rises through 10, 50 and 90 % half a softness apart', () => {
    // derived: ℓ(∓softness/2) = 1/(1 + 9^±1); between a floor of 0.1 and a top of 0.9.
    const long = colourGel({ band: { shape: 'long-pass', edge_nm: 600 }, ...plain });
    const short = colourGel({ band: { shape: 'short-pass', edge_nm: 600 }, ...plain });
    for (const [nm, share] of [
      [590, 0.1],
      [600, 0.5],
      [610, 0.9],
    ] as const) {
      expect(at(long, nm)).toBeCloseTo(0.1 + 0.8 * share, 12);
      expect(at(short, nm)).toBeCloseTo(0.9 - 0.8 * share, 12);
    }
  });

  it('reaches its top in the middle of a band and its floor in the middle of a notch', () => {
    // derived: both by their definition; far outside a band of 80 nm the logistic has fallen to e^−(4.4·110/20).
    const bandPass = colourGel({ band: { shape: 'band-pass', centre_nm: 530, width_nm: 80 }, ...plain });
    const notch = colourGel({ band: { shape: 'notch', centre_nm: 530, width_nm: 80 }, ...plain });
    expect(at(bandPass, 530)).toBeCloseTo(0.9, 12);
    expect(at(bandPass, 380)).toBeCloseTo(0.1, 9);
    expect(at(notch, 530)).toBeCloseTo(0.1, 12);
    expect(at(notch, 780)).toBeCloseTo(0.9, 9);
    // derived: four softnesses wide, its edges do not know of each other: half way at ± width/2.
    expect(at(bandPass, 490)).toBeCloseTo(0.5, 3);
    expect(at(notch, 570)).toBeCloseTo(0.5, 3);
  });

  it('is as wide at half its height as the model says, narrow bands too', () => {
    // derived: with e = 1/9 at w = softness, 1/ℓ(x + w/2)·1/ℓ(w/2 − x) = 1 + e² + 2e·cosh kx must be 2(1 + e)².
    const cosh = ((1 + 1 / 9) ** 2 * 2 - 1 - 1 / 81) / (2 / 9);
    const half = (Math.acosh(cosh) / (2 * Math.log(9))) * 100;
    expect(half / 50).toBeCloseTo(1.17, 2);
    const narrow = colourGel({
      band: { shape: 'band-pass', centre_nm: 580, width_nm: 100 },
      softness_nm: 100,
      top: 0.9,
      floor: 0,
    });
    // Between the grid's 635 and 640 nm stands 580 + 58.4.
    const [before, after] = [at(narrow, 635), at(narrow, 640)];
    const crossing = 55 + (5 * (before - 0.45)) / (before - after);
    expect(Math.abs(crossing - half)).toBeLessThan(0.05);
  });

  it('and its opposite pass top plus floor together, at every wavelength', () => {
    // derived: s and 1 − s.
    fc.assert(
      fc.property(gel, (g) => {
        const [one, other] = [colourGel(g), colourGel({ ...g, band: opposite(g.band) })];
        for (const [i, tau] of one.entries())
          expect(Math.abs((tau + other[i]!) / (g.top + g.floor) - 1)).toBeLessThan(IDENTITY);
      }),
      { seed: 41 },
    );
  });

  it('stays between its floor and its top', () => {
    fc.assert(
      fc.property(gel, (g) => {
        for (const tau of colourGel(g)) {
          expect(tau).toBeGreaterThanOrEqual(g.floor - IDENTITY);
          expect(tau).toBeLessThanOrEqual(g.top + IDENTITY);
        }
      }),
      { seed: 42 },
    );
  });

  it.each([
    [{ top: 0.1, floor: 0.1 }, 'passes 0.1 to 0.1'],
    [{ top: 90 }, 'top of at most 1'],
    [{ floor: -0.1 }, 'passes -0.1'],
    [{ floor: Number.NaN }, 'passes NaN'],
    [{ softness_nm: 0 }, 'softness of the colour gel in nm is 0'],
    [{ band: { shape: 'long-pass', edge_nm: Number.NaN } as const }, 'edge of the colour gel in nm is NaN'],
    [
      { band: { shape: 'notch', centre_nm: 550, width_nm: 0 } as const },
      'width of the colour gel in nm is 0',
    ],
  ])('refuses %j', (change, message) => {
    const whole = { band: { shape: 'long-pass', edge_nm: 600 } as const, ...plain };
    expect(() => colourGel({ ...whole, ...change })).toThrow(message);
  });
});
