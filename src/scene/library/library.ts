import filters from '../../../assets/library/filters.json';
import heads from '../../../assets/library/heads.json';
import materials from '../../../assets/library/materials.json';
import panes from '../../../assets/library/panes.json';
import sensors from '../../../assets/library/sensors.json';
import type { SpectrumTable } from '../../core/spectra/spectrum-table.ts';
import type { Filter } from '../schema/filter.ts';
import type { Head } from '../schema/head.ts';
import type { Material, Pane } from '../schema/material.ts';
import { REFLECTANCES } from './spectra.ts';

/** A camera's sensor format by its trade name. */
export interface Sensor {
  readonly name: string;
  readonly sensor_mm: readonly [number, number];
}

/**
 * The generic things every document may name without bringing them. A document's own entry of the same name wins.
 * The files under `assets/library` are checked against the schema by a test, not at every start.
 */
export interface Library {
  readonly materials: Readonly<Record<string, Material>>;
  readonly panes: Readonly<Record<string, Pane>>;
  readonly filters: Readonly<Record<string, Filter>>;
  readonly heads: Readonly<Record<string, Head>>;
  readonly sensors: Readonly<Record<string, Sensor>>;
  readonly reflectances: Readonly<Record<string, SpectrumTable>>;
}

export const LIBRARY: Library = {
  materials: materials as unknown as Library['materials'],
  panes: panes as unknown as Library['panes'],
  filters: filters as unknown as Library['filters'],
  heads: heads as unknown as Library['heads'],
  sensors: sensors as unknown as Library['sensors'],
  reflectances: REFLECTANCES,
};

/** The entry that a name means in a document: its own, else the library's, else undefined. Own properties only. */
export function entryNamed<T>(
  own: Readonly<Record<string, T>> | undefined,
  library: Readonly<Record<string, T>>,
  name: string,
): T | undefined {
  if (own && Object.hasOwn(own, name)) return own[name];
  return Object.hasOwn(library, name) ? library[name] : undefined;
}
