import { buildGeometry, type Geometry } from '../../core/geometry/geometry.ts';
import { placementFrom } from '../../core/geometry/placement.ts';
import type { Part } from '../../core/geometry/shape.ts';
import { extinction_per_m } from '../../core/haze/extinction.ts';
import type { HazeRegion } from '../../core/haze/haze-region.ts';
import type { Haze, Lamp as LampModel, LightModel, Owner, Sky } from '../../core/light-model/light-model.ts';
import { lampSpectrum } from '../../core/spectra/lamp-spectrum.ts';
import { tristimulusOf } from '../../core/spectra/observer.ts';
import type { SceneFiles } from '../files/scene-files.ts';
import { entryNamed, LIBRARY, type Library } from '../library/library.ts';
import { SPECTRUM_TABLES } from '../library/spectra.ts';
import { problemAt, SceneError } from '../problems/problem.ts';
import type { HazeRegionSettings, HazeSettings, SceneDocument } from '../schema/document.ts';
import type { Head } from '../schema/head.ts';
import type { Lamp } from '../schema/lamp.ts';
import type { Site } from '../schema/site.ts';
import { figureShapes } from './figure-shapes.ts';
import { type HeadLight, headLight } from './head-light.ts';
import { filtersOf, lampLight } from './lamp-light.ts';
import { lampOnSurface_RGB } from './lamp-on-surface.ts';
import { newPalette, type Palette } from './palette.ts';
import { solidParts } from './solid-shapes.ts';

/** Ten times the budget; what lies beyond would fill the memory. */
const MAX_SHAPES = 1_000_000;
const DEFAULT_ALBEDO = 0.95;
const DEFAULT_ANISOTROPY = 0.8;
const DEFAULT_SKY_K = 4100;

/** What a compilation may take over from the one before, when nothing that it depends on has changed. */
export interface CompileMemo {
  geometry?: KnownGeometry | undefined;
  heads: Map<string, { readonly key: string; readonly files: SceneFiles; readonly light: HeadLight }>;
  /** By id. */
  lamps: Map<string, { readonly key: string; readonly headLight: HeadLight; readonly lamp: LampModel }>;
}

export function newCompileMemo(): CompileMemo {
  return { heads: new Map(), lamps: new Map() };
}

interface KnownGeometry {
  /** What it was built from; the same things need not be read through to be known again. */
  readonly madeFrom: readonly unknown[];
  readonly key: string;
  readonly files: SceneFiles;
  readonly built: BuiltGeometry;
}

interface BuiltGeometry {
  readonly geometry: Geometry;
  readonly paneDirect: Float64Array;
  readonly parts: readonly Part[];
  readonly owners: readonly Owner[];
  readonly palette: Palette;
}

/**
 * A valid document, in the setup that is wanted, with its files read → the light model. Pass the same memo again and
 * again while lamps are dragged: bodies are rebuilt and spectra integrated only when they change.
 * @throws SceneError where figures that are valid one by one make no lamp together
 */
export function compileScene(
  document: SceneDocument,
  files: SceneFiles,
  library: Library = LIBRARY,
  memo: CompileMemo = newCompileMemo(),
): LightModel {
  const { geometry, paneDirect, parts, owners, palette } = geometryOf(document, files, library, memo);
  const lamps = (document.lamps ?? []).map((lamp) => lampOf(lamp, document, files, library, memo));
  return {
    geometry,
    parts,
    owners,
    surfaces: palette.surfaces,
    panes: palette.panes,
    paneDirect,
    lamps,
    lampOnSurface_RGB: lampOnSurface_RGB(
      lamps.map((lamp) => lamp.spectrum),
      palette.surfaces,
      palette.spectra,
    ),
    haze: document.haze ? hazeOf(document.haze) : null,
    sky: document.site?.sky ? skyOf(document.site.sky) : null,
  };
}

function geometryOf(
  document: SceneDocument,
  files: SceneFiles,
  library: Library,
  memo: CompileMemo,
): BuiltGeometry {
  const { solids, figures, materials, panes } = document;
  const madeFrom = [solids, figures, materials, panes];
  const known = memo.geometry?.files === files ? memo.geometry : undefined;
  if (known?.madeFrom.every((part, i) => part === madeFrom[i])) return known.built;
  const key = JSON.stringify(madeFrom);
  if (known?.key === key) {
    memo.geometry = { ...known, madeFrom };
    return known.built;
  }

  const palette = newPalette(document, library);
  const owners: Owner[] = [];
  const parts: Part[] = [];
  const gather = (thing: { id: string; name?: string | undefined }, made: readonly Part[]) => {
    owners.push({ id: thing.id, name: thing.name ?? thing.id });
    for (const part of made) parts.push(part);
  };
  for (const [index, solid] of (solids ?? []).entries()) {
    gather(solid, solidParts(solid, owners.length, palette, files));
    if (parts.length > MAX_SHAPES) {
      const found = `more than ${MAX_SHAPES} sheets and triangles up to here`;
      const expected = 'fewer windows, thinner meshes or fewer copies of them';
      throw new SceneError([problemAt(document, ['solids', index], { found, expected })]);
    }
  }
  for (const figure of figures ?? []) gather(figure, figureShapes(figure, owners.length, palette));
  const paneDirect = Float64Array.from(palette.panes, (pane) => pane.direct);
  const built = { geometry: buildGeometry(parts), paneDirect, parts, owners, palette };
  memo.geometry = { madeFrom, key, files, built };
  return built;
}

function lampOf(
  lamp: Lamp,
  document: SceneDocument,
  files: SceneFiles,
  library: Library,
  memo: CompileMemo,
): LampModel {
  const head = entryNamed(document.heads, library.heads, lamp.head)!;
  const headLight = headLightOf(lamp.head, head, document, files, memo);
  const filters = filtersOf(lamp, document, library);
  const key = JSON.stringify([lamp, head.face, filters]);
  const known = memo.lamps.get(lamp.id);
  if (known?.key === key && known.headLight === headLight) return known.lamp;
  const made = lampLight(lamp, headLight, head, filters);
  memo.lamps.set(lamp.id, { key, headLight, lamp: made });
  return made;
}

function headLightOf(
  name: string,
  head: Head,
  document: SceneDocument,
  files: SceneFiles,
  memo: CompileMemo,
): HeadLight {
  const { photometry, spectrum } = head;
  const key = JSON.stringify([
    photometry.kind === 'file' ? [photometry.file, photometry.lampSet] : photometry,
    spectrum,
  ]);
  const known = memo.heads.get(name);
  if (known?.key === key && known.files === files) return known.light;
  try {
    const light = headLight(head, files.photometry.get(name));
    memo.heads.set(name, { key, files, light });
    return light;
  } catch (error) {
    if (!(error instanceof RangeError)) throw error;
    const expected = 'figures that a lamp can have';
    throw new SceneError([problemAt(document, ['heads', name], { found: error.message, expected })]);
  }
}

function hazeOf(haze: HazeSettings): Haze {
  return {
    extinction_per_m: extinction_per_m(haze.visibility_m),
    albedo: haze.albedo ?? DEFAULT_ALBEDO,
    anisotropy: haze.anisotropy ?? DEFAULT_ANISOTROPY,
    regions: haze.regions?.map(regionOf) ?? null,
  };
}

function regionOf({ position_m, size_m, rotation_deg }: HazeRegionSettings): HazeRegion {
  return {
    placement: placementFrom(position_m, rotation_deg),
    halfSize_m: [size_m[0] / 2, size_m[1] / 2, size_m[2] / 2],
  };
}

/** The night sky's colour is that of a black body: close enough for light that is itself known to a stop. */
function skyOf(sky: NonNullable<Site['sky']>): Sky {
  const spectrum = lampSpectrum({ kind: 'planck', cct_K: sky.cct_K ?? DEFAULT_SKY_K }, SPECTRUM_TABLES);
  const [X, Y, Z] = tristimulusOf(spectrum);
  return { illuminance_lx: sky.illuminance_lx, colour_XYZ: [X / Y, 1, Z / Y] };
}
