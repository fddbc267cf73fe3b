import type { Pane as PaneModel, Surface } from '../../core/light-model/light-model.ts';
import type { Vec3 } from '../../core/math/vec3.ts';
import { daylightSpectrum } from '../../core/spectra/daylight.ts';
import { tristimulusOf } from '../../core/spectra/observer.ts';
import { spectrumOfTable } from '../../core/spectra/spectrum-table.ts';
import { product } from '../../core/spectra/wavelengths.ts';
import { entryNamed, type Library } from '../library/library.ts';
import { SPECTRUM_TABLES } from '../library/spectra.ts';
import type { SceneDocument } from '../schema/document.ts';
import type { Material } from '../schema/material.ts';

const DEFAULT_ROUGHNESS = 0.5;
const DEFAULT_SPREAD_deg = 60;
const D65_K = 6504;

/** The materials and panes that a scene uses, numbered in the order of first use. */
export interface Palette {
  readonly surfaces: Surface[];
  readonly panes: PaneModel[];
  /** Index of a material by its name in the document or the library. */
  surface(name: string): number;
  pane(name: string): number;
}

/** Names are known to exist: the document was checked. */
export function newPalette(document: SceneDocument, library: Library): Palette {
  const surfaces: Surface[] = [];
  const panes: PaneModel[] = [];
  const surfaceIndex = new Map<string, number>();
  const paneIndex = new Map<string, number>();
  return {
    surfaces,
    panes,
    surface(name) {
      const known = surfaceIndex.get(name);
      if (known !== undefined) return known;
      const material = required(entryNamed(document.materials, library.materials, name), name);
      surfaceIndex.set(name, surfaces.length);
      surfaces.push({
        id: name,
        name: material.name ?? name,
        reflectance: linearRgb(material, library),
        metal: material.metal ?? null,
        roughness: material.roughness ?? DEFAULT_ROUGHNESS,
        coatIor: material.coatIor ?? null,
      });
      return surfaces.length - 1;
    },
    pane(name) {
      const known = paneIndex.get(name);
      if (known !== undefined) return known;
      const pane = required(entryNamed(document.panes, library.panes, name), name);
      paneIndex.set(name, panes.length);
      panes.push({
        id: name,
        name: pane.name ?? name,
        direct: pane.direct,
        scattered: pane.scattered ?? 0,
        spread_deg: pane.spread_deg ?? DEFAULT_SPREAD_deg,
      });
      return panes.length - 1;
    },
  };
}

function required<T>(entry: T | undefined, name: string): T {
  if (entry === undefined)
    throw new Error(`"${name}" is not in the document or the library: check the document first`);
  return entry;
}

function linearRgb(material: Material, library: Library): Vec3 {
  const { reflectance } = material;
  if (reflectance === undefined) return METAL_COLOUR;
  if (typeof reflectance === 'number') return [reflectance, reflectance, reflectance];
  if (typeof reflectance !== 'string') return reflectance;
  const table = required(library.reflectances[reflectance], reflectance);
  const daylight = daylightSpectrum(D65_K, SPECTRUM_TABLES.daylight);
  const [, white] = tristimulusOf(daylight);
  const [X, Y, Z] = tristimulusOf(product(daylight, spectrumOfTable(table, 'held'))).map(
    (v) => v / white,
  ) as [number, number, number];
  // XYZ to linear RGB with the primaries and white of IEC 61966-2-1.
  return [
    clamped(3.2406 * X - 1.5372 * Y - 0.4986 * Z),
    clamped(-0.9689 * X + 1.8758 * Y + 0.0415 * Z),
    clamped(0.0557 * X - 0.204 * Y + 1.057 * Z),
  ];
}

/** Bare metals are shown as a neutral mirror until their complex index is read by the surface model. */
const METAL_COLOUR: Vec3 = [0.6, 0.6, 0.6];

function clamped(value: number): number {
  return Math.min(1, Math.max(0, value));
}
