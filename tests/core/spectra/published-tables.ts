import { readFileSync } from 'node:fs';
import type { SpectrumTables } from '../../../src/core/spectra/lamp-spectrum.ts';
import { type SpectrumTable, spectrumOfTable } from '../../../src/core/spectra/spectrum-table.ts';
import type { Spectrum } from '../../../src/core/spectra/wavelengths.ts';

/** The shipped spectra, read as a program would read them. */
const shippedAt = new URL('../../../assets/spectra/', import.meta.url);

/** CIE illuminants that are not shipped, in the same format, keyed by the CIE's own names. */
const illuminants: Record<string, SpectrumTable> = JSON.parse(
  readFileSync(new URL('../../fixtures/spectra/cie-illuminants.json', import.meta.url), 'utf8'),
);

export function shippedTable(file: string): SpectrumTable {
  return JSON.parse(readFileSync(new URL(`${file}.json`, shippedAt), 'utf8'));
}

export function shipped(file: string): Spectrum {
  return spectrumOfTable(shippedTable(file), 'zero');
}

export function illuminant(name: string): Spectrum {
  const table = illuminants[name];
  if (!table) throw new Error(`the fixture has no illuminant ${name}`);
  return spectrumOfTable(table, 'zero');
}

export const publishedTables: SpectrumTables = {
  daylight: {
    S0: shipped('cie-daylight-s0'),
    S1: shipped('cie-daylight-s1'),
    S2: shipped('cie-daylight-s2'),
  },
  discharge: ['cie-hp1', 'cie-hp2', 'cie-hp3', 'cie-hp4', 'cie-hp5'].map(shipped),
  led: ['cie-led-b1', 'cie-led-b2', 'cie-led-b3', 'cie-led-b4', 'cie-led-b5'].map(shipped),
};
