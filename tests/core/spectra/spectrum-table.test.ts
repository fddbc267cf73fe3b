import { readdirSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { spectrumOfTable } from '../../../src/core/spectra/spectrum-table.ts';
import { SAMPLES } from '../../../src/core/spectra/wavelengths.ts';
import { shippedTable } from './published-tables.ts';

const spectraFolder = new URL('../../../assets/spectra/', import.meta.url);
const files = (readdirSync(spectraFolder, { recursive: true }) as string[])
  .filter((file) => file.endsWith('.json') && !file.startsWith('metals'))
  .map((file) => file.replace(/\.json$/, ''));

describe('shipped spectra', () => {
  it.each(files)('%s covers the grid and says where it is from', (file) => {
    const table = shippedTable(file);
    expect(table.name).not.toBe('');
    expect(table.source).toMatch(/CIE 15|ISO 17321-1/);
    expect(table.wavelength_nm).toEqual({ start: 380, step: 5 });
    expect(table.values).toHaveLength(SAMPLES);
    expect([...spectrumOfTable(table, 'zero')]).toEqual(table.values);
  });

  it.each(files.filter((file) => file.includes('reflectance')))('%s reflects between 0 and 1', (file) => {
    for (const value of shippedTable(file).values) {
      expect(value).toBeGreaterThan(0);
      expect(value).toBeLessThan(1);
    }
  });
});

describe('a malformed table', () => {
  it('is refused by name', () => {
    const table = { name: 'My lamp', source: '', wavelength_nm: { start: 380, step: 0 }, values: [1, 2] };
    expect(() => spectrumOfTable(table, 'zero')).toThrow(
      /spectrum "My lamp": .*row 2 is at 380 nm after 380 nm/,
    );
  });
});
