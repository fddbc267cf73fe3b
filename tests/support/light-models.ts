import { buildGeometry } from '../../src/core/geometry/geometry.ts';
import { placementFrom } from '../../src/core/geometry/placement.ts';
import type { Part, Shape } from '../../src/core/geometry/shape.ts';
import type { HazeRegion } from '../../src/core/haze/haze-region.ts';
import type { Face } from '../../src/core/lamps/face.ts';
import { lampFrame } from '../../src/core/lamps/lamp-frame.ts';
import type { Lamp, LightModel, Pane } from '../../src/core/light-model/light-model.ts';
import type { Vec3 } from '../../src/core/math/vec3.ts';
import type { Distribution } from '../../src/core/photometry/distribution.ts';
import { linearRgbFromXyz, xyzFromLinearRgb } from '../../src/core/picture/linear-rgb.ts';
import { SAMPLES } from '../../src/core/spectra/wavelengths.ts';
import { type SurfaceDescription, surfaceOptics } from '../../src/core/surfaces/surface-optics.ts';
import { type DirectLight, directLight } from '../../src/core/transport/direct.ts';
import type { MeterPoint } from '../../src/core/transport/source-sample.ts';

/** Light models put together by hand, so that analytic tests depend on nothing but the core. */

/** The white of linear RGB: R = G = B = luminance. */
const WHITE_XYZ = xyzFromLinearRgb([1, 1, 1]);

export const POINT: Face = { shape: 'disc', radius_m: 1e-4 };

export function lampAt(
  position_m: Vec3,
  aim_m: Vec3,
  distribution: Distribution,
  face: Face = POINT,
  more: Partial<Lamp> = {},
): Lamp {
  return {
    id: 'lamp',
    name: 'Lamp',
    head: 'head',
    frame: lampFrame(position_m, aim_m),
    face,
    distribution,
    gain: 1,
    filterLoss_stops: 0,
    spectrum: new Float64Array(SAMPLES).fill(1),
    colour_XYZ: WHITE_XYZ,
    photometryUncertainty_stops: 0,
    ...more,
  };
}

/** The same candela in all directions; as a table, the one kind that needs no axis. */
export function isotropic(intensity_cd: number): Distribution {
  return {
    kind: 'table',
    goniometry: 'C',
    vertical_deg: Float64Array.of(0, 90, 180),
    horizontal_deg: Float64Array.of(0),
    candela: Float64Array.of(intensity_cd, intensity_cd, intensity_cd),
  };
}

/** A box along the axes, for haze to fill. */
export function hazeBox(low: Vec3, high: Vec3): HazeRegion {
  const middle = low.map((x, i) => (x + high[i]!) / 2) as [number, number, number];
  const half = low.map((x, i) => (high[i]! - x) / 2) as [number, number, number];
  return { placement: placementFrom(middle), halfSize_m: half };
}

export function opaque(shape: Shape, material = 0): Part {
  return { shape, substance: { kind: 'material', index: material }, owner: 0 };
}

export function pane(shape: Shape, index = 0): Part {
  return { shape, substance: { kind: 'pane', index }, owner: 0 };
}

/** A rectangle in the plane z = `z_m`, facing +z. */
export function sheetAt(x_m: number, y_m: number, z_m: number, width_m: number, height_m: number): Shape {
  return {
    kind: 'panel',
    placement: placementFrom([x_m, y_m, z_m]),
    halfSize_m: [width_m / 2, height_m / 2],
    openings: [],
  };
}

export interface ModelOptions {
  readonly lamps?: readonly Lamp[];
  readonly parts?: readonly Part[];
  /** By index: straight share, or the pane in full. */
  readonly panes?: readonly (number | Partial<Pane>)[];
  /** By index of the parts' material; black when left out. */
  readonly surfaces?: readonly Partial<SurfaceDescription>[];
  readonly albedo?: number;
  readonly anisotropy?: number;
  readonly extinction_per_m?: number;
  readonly skyIlluminance_lx?: number;
  readonly hazeRegions?: readonly HazeRegion[];
}

export function modelOf(options: ModelOptions): LightModel {
  const parts = options.parts ?? [];
  const lamps = options.lamps ?? [];
  const panes: Pane[] = (options.panes ?? []).map((pane, i) => ({
    id: `pane-${i}`,
    name: `Pane ${i}`,
    direct: 1,
    scattered: 0,
    spread_deg: 60,
    ...(typeof pane === 'number' ? { direct: pane } : pane),
  }));
  const surfaces = (options.surfaces ?? [{}]).map((surface, i) => surfaceNamed(`surface-${i}`, surface));
  return {
    geometry: buildGeometry(parts),
    parts,
    owners: [{ id: 'thing', name: 'Thing' }],
    surfaces,
    panes,
    paneDirect: Float64Array.from(panes, (p) => p.direct),
    lamps,
    lampOnSurface_RGB: Float64Array.from(
      lamps.flatMap((lamp) => {
        const own = linearRgbFromXyz(lamp.colour_XYZ);
        return surfaces.flatMap((surface) => own.map((value, c) => value * surface.optics.baseRgb[c]!));
      }),
    ),
    haze:
      options.extinction_per_m === undefined
        ? null
        : {
            extinction_per_m: options.extinction_per_m,
            albedo: options.albedo ?? 1,
            anisotropy: options.anisotropy ?? 0,
            regions: options.hazeRegions ?? null,
          },
    sky:
      options.skyIlluminance_lx === undefined
        ? null
        : { illuminance_lx: options.skyIlluminance_lx, colour_XYZ: WHITE_XYZ },
  };
}

function surfaceNamed(id: string, surface: Partial<SurfaceDescription>): LightModel['surfaces'][number] {
  const description = {
    reflectance: [0, 0, 0] as Vec3,
    metal: null,
    roughness: 0.5,
    coatIor: null,
    ...surface,
  };
  return {
    id,
    name: id,
    reflectance: description.reflectance,
    optics: surfaceOptics(description),
    blurred: surfaceOptics({ ...description, roughness: Math.max(0.4, description.roughness) }),
  };
}

/** Direct light to within `error_stops`, far tighter than a meter reads, so that the analytic figure is what is tested. */
export function directAt(
  model: LightModel,
  meter: MeterPoint,
  receptor: 'dome' | 'flat' = 'flat',
  error_stops = 0.001,
): DirectLight {
  return directLight(model, meter, { receptor, error_stops, maxSamples: 1 << 17 });
}
