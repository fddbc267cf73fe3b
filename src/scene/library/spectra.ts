import daylightS0 from '../../../assets/spectra/cie-daylight-s0.json';
import daylightS1 from '../../../assets/spectra/cie-daylight-s1.json';
import daylightS2 from '../../../assets/spectra/cie-daylight-s2.json';
import discharge1 from '../../../assets/spectra/cie-hp1.json';
import discharge2 from '../../../assets/spectra/cie-hp2.json';
import discharge3 from '../../../assets/spectra/cie-hp3.json';
import discharge4 from '../../../assets/spectra/cie-hp4.json';
import discharge5 from '../../../assets/spectra/cie-hp5.json';
import led1 from '../../../assets/spectra/cie-led-b1.json';
import led2 from '../../../assets/spectra/cie-led-b2.json';
import led3 from '../../../assets/spectra/cie-led-b3.json';
import led4 from '../../../assets/spectra/cie-led-b4.json';
import led5 from '../../../assets/spectra/cie-led-b5.json';
import aluminium from '../../../assets/spectra/metals/aluminium.json';
import chromium from '../../../assets/spectra/metals/chromium.json';
import iron from '../../../assets/spectra/metals/iron.json';
import nickel from '../../../assets/spectra/metals/nickel.json';
import silver from '../../../assets/spectra/metals/silver.json';
import stainlessSteel from '../../../assets/spectra/metals/stainless-steel.json';
import black from '../../../assets/spectra/reflectance/black.json';
import blue from '../../../assets/spectra/reflectance/blue.json';
import darkSkin from '../../../assets/spectra/reflectance/dark-skin.json';
import green from '../../../assets/spectra/reflectance/green.json';
import lightSkin from '../../../assets/spectra/reflectance/light-skin.json';
import neutral5 from '../../../assets/spectra/reflectance/neutral-5.json';
import red from '../../../assets/spectra/reflectance/red.json';
import white from '../../../assets/spectra/reflectance/white.json';
import type { SpectrumTables } from '../../core/spectra/lamp-spectrum.ts';
import { type SpectrumTable, spectrumOfTable } from '../../core/spectra/spectrum-table.ts';
import { type MetalIndex, metalIndex } from '../../core/surfaces/metal-index.ts';
import type { Metal } from '../schema/material.ts';

/** Complex refractive indices of the metals that a material may be made of. */
export const METAL_INDICES: Readonly<Record<Metal, MetalIndex>> = {
  aluminium: metalIndex(aluminium),
  chromium: metalIndex(chromium),
  iron: metalIndex(iron),
  nickel: metalIndex(nickel),
  silver: metalIndex(silver),
  'stainless-steel': metalIndex(stainlessSteel),
};

/** Published lamp spectra, on the core's wavelength grid. Discharge: two sodium street lamps, three metal-halide. */
export const SPECTRUM_TABLES: SpectrumTables = {
  daylight: {
    S0: spectrumOfTable(daylightS0, 'held'),
    S1: spectrumOfTable(daylightS1, 'held'),
    S2: spectrumOfTable(daylightS2, 'held'),
  },
  discharge: [discharge1, discharge2, discharge3, discharge4, discharge5].map((table) =>
    spectrumOfTable(table, 'zero'),
  ),
  led: [led1, led2, led3, led4, led5].map((table) => spectrumOfTable(table, 'zero')),
};

/** Reflectance spectra that a material may name. */
export const REFLECTANCES: Readonly<Record<string, SpectrumTable>> = {
  black,
  blue,
  'dark-skin': darkSkin,
  green,
  'light-skin': lightSkin,
  'neutral-5': neutral5,
  red,
  white,
};
