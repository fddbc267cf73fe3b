import type { Pane as PaneModel, Surface } from '../../core/light-model/light-model.ts';
import type { Vec3 } from '../../core/math/vec3.ts';
import { linearRgbFromXyz } from '../../core/picture/linear-rgb.ts';
import { daylightSpectrum } from '../../core/spectra/daylight.ts';
import { tristimulusOf } from '../../core/spectra/observer.ts';
import { spectrumOfTable } from '../../core/spectra/spectrum-table.ts';
import { product, type Spectrum } from '../../core/spectra/wavelengths.ts';
import { conductorReflectance } from '../../core/surfaces/fresnel.ts';
import { type SurfaceOptics, surfaceOptics } from '../../core/surfaces/surface-optics.ts';
import { entryNamed, type Library } from '../library/library.ts';
import { METAL_INDICES, SPECTRUM_TABLES } from '../library/spectra.ts';
import type { SceneDocument } from '../schema/document.ts';
import type { Material } from '../schema/material.ts';

const DEFAULT_ROUGHNESS = 0.5;
/** Lobes that are met by chance are no narrower than this; half its square is what it blurs an angle by. */
const BLURRED_ROUGHNESS = 0.4;
const DEFAULT_SPREAD_deg = 60;
const D65_K = 6504;

/** The materials and panes that a scene uses, numbered in the order of first use. */
export interface Palette {
  readonly surfaces: Surface[];
  /** By surface: the reflectance of its base over the spectrum, where the material names one. */
  readonly spectra: (Spectrum | null)[];
  readonly panes: PaneModel[];
  /** Index of a material by its name in the document or the library. */
  surface(name: string): number;
  pane(name: string): number;
}

/** Names are known to exist: the document was checked. */
export function newPalette(document: SceneDocument, library: Library): Palette {
  const surfaces: Surface[] = [];
  const spectra: (Spectrum | null)[] = [];
  const panes: PaneModel[] = [];
  const surfaceIndex = new Map<string, number>();
  const paneIndex = new Map<string, number>();
  return {
    surfaces,
    spectra,
    panes,
    surface(name) {
      const known = surfaceIndex.get(name);
      if (known !== undefined) return known;
      const material = required(entryNamed(document.materials, library.materials, name), name);
      const spectrum = reflectanceSpectrum(material, library);
      surfaceIndex.set(name, surfaces.length);
      surfaces.push(surfaceOf(name, material, spectrum));
      spectra.push(spectrum);
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

function surfaceOf(id: string, material: Material, spectrum: Spectrum | null): Surface {
  const metal = material.metal === undefined ? null : METAL_INDICES[material.metal];
  const reflectance: Vec3 = metal
    ? ([0, 1, 2].map((c) => conductorReflectance(1, metal.n[c]!, metal.k[c]!)) as unknown as Vec3)
    : baseRgb(material, spectrum);
  const roughness = material.roughness ?? DEFAULT_ROUGHNESS;
  const optics = (atLeast: number): SurfaceOptics =>
    surfaceOptics({
      reflectance,
      metal,
      roughness: Math.max(atLeast, roughness),
      coatIor: material.coatIor ?? null,
    });
  const own = optics(0);
  return {
    id,
    name: material.name ?? id,
    reflectance,
    optics: own,
    blurred: roughness < BLURRED_ROUGHNESS ? optics(BLURRED_ROUGHNESS) : own,
  };
}

function reflectanceSpectrum({ reflectance }: Material, library: Library): Spectrum | null {
  if (typeof reflectance !== 'string') return null;
  return spectrumOfTable(required(library.reflectances[reflectance], reflectance), 'held');
}

/** A spectrum's colour is that under average daylight. */
function baseRgb({ reflectance }: Material, spectrum: Spectrum | null): Vec3 {
  if (spectrum) {
    const daylight = daylightSpectrum(D65_K, SPECTRUM_TABLES.daylight);
    const [, white] = tristimulusOf(daylight);
    const [X, Y, Z] = tristimulusOf(product(daylight, spectrum));
    const [r, g, b] = linearRgbFromXyz([X / white, Y / white, Z / white]);
    return [clamped(r), clamped(g), clamped(b)];
  }
  if (typeof reflectance === 'number') return [reflectance, reflectance, reflectance];
  return reflectance as Vec3;
}

function clamped(value: number): number {
  return Math.min(1, Math.max(0, value));
}
