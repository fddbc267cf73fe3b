import { describe, expect, it } from 'vitest';
import {
  CLEAR_FILM_TRANSMISSION,
  conversionGel,
  idealConversionFilter,
} from '../../../src/core/spectra/conversion-filter.ts';
import { C2_M_K, planckSpectrum } from '../../../src/core/spectra/planck.ts';
import { product, spectrumOf, WAVELENGTHS_NM } from '../../../src/core/spectra/wavelengths.ts';
import { IDENTITY } from '../../tolerances.ts';

describe('the ideal conversion filter', () => {
  it('turns the Wien spectrum of one temperature into that of another, exactly', () => {
    // derived: exp(−c₂/λT₁)·exp(−c₂Δ/λ) = exp(−c₂/λT₂) for Δ = 1/T₂ − 1/T₁
    const wien = (T: number) => spectrumOf((nm) => Math.exp(-C2_M_K / (nm * 1e-9 * T)));
    const made = product(wien(5600), idealConversionFilter(1e6 / 3200 - 1e6 / 5600));
    const ratio = made.map((value, i) => value / wien(3200)[i]!);
    for (const r of ratio) expect(Math.abs(r / ratio[0]! - 1)).toBeLessThan(1e-10);
  });

  it('has its maximum at the red end when orange, at the blue end when blue, and is flat when 0', () => {
    const orange = idealConversionFilter(100);
    const blue = idealConversionFilter(-100, 0.5);
    expect([orange[80], blue[0]]).toEqual([1, 0.5]);
    expect(Math.max(...orange)).toBe(1);
    expect(Math.max(...blue)).toBe(0.5);
    expect([...new Set(idealConversionFilter(0))]).toEqual([1]);
  });

  it('undoes itself: a filter and its opposite are grey together', () => {
    const both = product(idealConversionFilter(78), idealConversionFilter(-78));
    for (const t of both) expect(Math.abs(t / both[0]! - 1)).toBeLessThan(IDENTITY);
  });
});

describe('the conversion gel', () => {
  it.each([159, 26, -18, -137])(
    'of %d mired has the ideal shape from 435 to 635 nm and never passes more than film',
    (shift) => {
      const gel = conversionGel(shift);
      const ideal = idealConversionFilter(shift);
      const inside = WAVELENGTHS_NM.indexOf(535);
      for (const [i, nm] of WAVELENGTHS_NM.entries()) {
        expect(gel[i]!).toBeLessThanOrEqual(CLEAR_FILM_TRANSMISSION);
        if (nm < 435 || nm > 635) continue;
        expect(Math.abs(((gel[i]! / gel[inside]!) * ideal[inside]!) / ideal[i]! - 1)).toBeLessThan(1e-10);
      }
      expect(Math.max(...gel)).toBe(CLEAR_FILM_TRANSMISSION);
    },
  );

  it('takes another greatest transmission as a plain factor', () => {
    const lamp = planckSpectrum(3200);
    const [a, b] = [product(lamp, conversionGel(-78)), product(lamp, conversionGel(-78, 0.475))];
    for (const [i, value] of a.entries()) expect(b[i]! / value).toBeCloseTo(0.5, 12);
  });

  it.each([
    [Number.NaN, 1, 'mired shift is NaN'],
    [Number.POSITIVE_INFINITY, 1, 'mired shift is Infinity'],
    [-78, 0, 'greatest transmission of the filter is 0'],
    [-78, 55, 'write 55 % as 0.55'],
  ])('refuses shift %d with greatest transmission %d', (shift, top, message) => {
    expect(() => conversionGel(shift, top)).toThrow(message);
    expect(() => idealConversionFilter(shift, top)).toThrow(message);
  });
});
