import type { Geometry } from '../geometry/geometry.ts';
import type { Part } from '../geometry/shape.ts';
import type { HazeRegion } from '../haze/haze-region.ts';
import type { Face } from '../lamps/face.ts';
import type { LampFrame } from '../lamps/lamp-frame.ts';
import type { Vec3 } from '../math/vec3.ts';
import type { Distribution } from '../photometry/distribution.ts';
import type { Spectrum } from '../spectra/wavelengths.ts';
import type { SurfaceOptics } from '../surfaces/surface-optics.ts';

/**
 * The flat form of a scene that light is computed from: what a document compiles to, and what every solver reads.
 * Nothing here refers back to the document but by id.
 */
export interface LightModel {
  readonly geometry: Geometry;
  /** The shapes that the geometry was packed from, in its order. */
  readonly parts: readonly Part[];
  /** The things of the document that the parts belong to; `Part.owner` is an index into this list. */
  readonly owners: readonly Owner[];
  readonly surfaces: readonly Surface[];
  readonly panes: readonly Pane[];
  /** `panes[i].direct`, packed for the ray routines. */
  readonly paneDirect: Float64Array;
  readonly lamps: readonly Lamp[];
  /** Linear RGB of each lamp's light off the diffuse base of each surface, for lamp light of luminance 1, integrated over
   * the spectrum: three numbers at 3·(lamp·surfaces.length + surface). */
  readonly lampOnSurface_RGB: Float64Array;
  readonly haze: Haze | null;
  readonly sky: Sky | null;
}

export interface Owner {
  readonly id: string;
  readonly name: string;
}

/** A material; `Substance.index` of an opaque part is an index into the model's `surfaces`. */
export interface Surface {
  readonly id: string;
  readonly name: string;
  /** Linear RGB reflectance of the diffuse base; of a bare metal, its colour at normal incidence. */
  readonly reflectance: Vec3;
  readonly optics: SurfaceOptics;
  /** The same with its roughness raised: for lobes that must not be met by chance. */
  readonly blurred: SurfaceOptics;
}

export interface Pane {
  readonly id: string;
  readonly name: string;
  /** Share of light that goes straight on, share that is scattered, and the full angle of the scattered lobe. */
  readonly direct: number;
  readonly scattered: number;
  readonly spread_deg: number;
}

export interface Lamp {
  readonly id: string;
  readonly name: string;
  /** Lamps of one head share its photometric error. */
  readonly head: string;
  readonly frame: LampFrame;
  readonly face: Face;
  /** At full level, before filters. */
  readonly distribution: Distribution;
  /** Level × what the filters pass of this lamp's light; 0 when switched off. */
  readonly gain: number;
  readonly filterLoss_stops: number;
  /** Spectrum of the light after coloured filters, any scale, and its colour: CIE 1931 XYZ scaled to Y = 1. */
  readonly spectrum: Spectrum;
  readonly colour_XYZ: Vec3;
  readonly photometryUncertainty_stops: number;
}

export interface Haze {
  readonly extinction_per_m: number;
  readonly albedo: number;
  readonly anisotropy: number;
  /** What it fills; everything where null. */
  readonly regions: readonly HazeRegion[] | null;
}

/** A uniform dome; `illuminance_lx` is what it gives an open, level receptor. */
export interface Sky {
  readonly illuminance_lx: number;
  readonly colour_XYZ: Vec3;
}
