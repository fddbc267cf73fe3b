import { readFileSync } from 'node:fs';
import type { ComplexIndexTable } from '../../../../src/core/surfaces/metal-index.ts';

export const METAL_NAMES = ['aluminium', 'chromium', 'iron', 'nickel', 'silver', 'stainless-steel'] as const;
export type MetalName = (typeof METAL_NAMES)[number];

/** The shipped index of a metal, read as a program would read it. */
export function shippedMetal(name: MetalName): ComplexIndexTable {
  return JSON.parse(
    readFileSync(new URL(`../../../../assets/spectra/metals/${name}.json`, import.meta.url), 'utf8'),
  );
}
