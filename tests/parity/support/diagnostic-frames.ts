import { type ThinLens, thinLens } from '../../../src/core/camera/thin-lens.ts';
import { placementFrom } from '../../../src/core/geometry/placement.ts';
import type { Shape } from '../../../src/core/geometry/shape.ts';
import type { LightModel } from '../../../src/core/light-model/light-model.ts';
import type { Vec3 } from '../../../src/core/math/vec3.ts';
import type { CandelaTable } from '../../../src/core/photometry/distribution.ts';
import {
  hazeBox,
  lampAt,
  type ModelOptions,
  modelOf,
  opaque,
  pane,
  sheetAt,
} from '../../support/light-models.ts';

/** Small scenes, each with one thing in it that a renderer may get wrong, and a camera that looks at it. */
export interface DiagnosticFrame {
  readonly name: string;
  readonly model: LightModel;
  readonly lens: ThinLens;
  /** Samples a pixel of the core's frame and of the graphics card's, enough to tell 0.05 stop. */
  readonly samples: number;
}

const WHITE = { reflectance: [0.8, 0.8, 0.8] as Vec3 };
const GREY = { reflectance: [0.18, 0.2, 0.25] as Vec3 };

function camera(position_m: Vec3, look_m: Vec3, focal_mm = 28, fNumber = 22): ThinLens {
  return thinLens({
    position_m,
    look_m,
    roll_deg: 0,
    sensor_mm: [36, 24],
    aspect: 16 / 9,
    focal_mm,
    fNumber,
    focus_m: null,
  });
}

function box(centre_m: Vec3, size_m: Vec3, rotation_deg: Vec3 = [0, 0, 0]): Shape {
  const [x, y, z] = size_m;
  return { kind: 'box', placement: placementFrom(centre_m, rotation_deg), halfSize_m: [x / 2, y / 2, z / 2] };
}

/** Its top is at height 0. */
const FLOOR = opaque(box([0, -0.1, 0], [12, 0.2, 12]));

function table(goniometry: 'A' | 'B' | 'C'): CandelaTable {
  const horizontal = goniometry === 'C' ? [0, 90, 180, 270, 360] : [-60, -20, 0, 20, 60];
  const vertical = goniometry === 'C' ? [0, 15, 35, 60, 90] : [-50, -15, 0, 10, 40];
  const candela = horizontal.flatMap((_, h) =>
    vertical.map((_, v) => 900 / (1 + (goniometry === 'C' ? v : Math.abs(v - 2)) + 0.6 * (h % 4))),
  );
  return {
    kind: 'table',
    goniometry,
    horizontal_deg: Float64Array.from(horizontal),
    vertical_deg: Float64Array.from(vertical),
    candela: Float64Array.from(candela),
  };
}

const BEAM = { kind: 'beam', peak_cd: 4000, beam_deg: 30, field_deg: 50 } as const;
const LAMBERT = { kind: 'lambert', peak_cd: 1000 } as const;
const DOWN_AT_FLOOR = camera([0, 2.2, 4.5], [0, 0.3, 0]);

function frame(name: string, options: ModelOptions, samples: number, lens = DOWN_AT_FLOOR): DiagnosticFrame {
  return { name, model: modelOf(options), lens, samples };
}

export function diagnosticFrames(): DiagnosticFrame[] {
  const onWhite = (lamps: ModelOptions['lamps']) => ({ parts: [FLOOR], surfaces: [WHITE], lamps: lamps! });
  return [
    frame(
      'a white floor under a Lambertian rectangle, in view',
      onWhite([lampAt([0, 2, -1], [0, 0, 0.5], LAMBERT, { shape: 'rectangle', halfSize_m: [0.6, 0.3] })]),
      32,
    ),
    frame(
      'a white floor under a beam',
      onWhite([lampAt([2, 3, 0], [0, 0, 0], BEAM, { shape: 'disc', radius_m: 0.15 })]),
      32,
    ),
    ...(['A', 'B', 'C'] as const).map((kind) =>
      frame(
        `a white floor under a type ${kind} table`,
        onWhite([lampAt([-1, 3, 0.5], [0.2, 0, 0], table(kind), { shape: 'octagon', apothem_m: 0.3 })]),
        32,
      ),
    ),
    frame(
      'a penumbra',
      {
        parts: [FLOOR, opaque(box([0, 1, 0], [1.2, 0.05, 1.2]))],
        surfaces: [WHITE],
        lamps: [lampAt([0.5, 3, 0], [0, 0, 0], LAMBERT, { shape: 'rectangle', halfSize_m: [0.5, 0.5] })],
      },
      64,
    ),
    frame(
      'shapes of every kind under a sky',
      {
        parts: [
          FLOOR,
          opaque({ kind: 'sphere', centre_m: [-1.6, 0.5, 0], radius_m: 0.5 }, 1),
          opaque(
            { kind: 'cylinder', placement: placementFrom([0, 0.5, -0.6]), radius_m: 0.4, halfHeight_m: 0.5 },
            1,
          ),
          opaque(
            {
              kind: 'capsule',
              placement: placementFrom([1.5, 0.6, 0], [0, 0, 40]),
              radius_m: 0.25,
              halfLength_m: 0.5,
            },
            1,
          ),
          opaque({ kind: 'triangle', a_m: [-0.6, 0, 1], b_m: [0.6, 0, 1], c_m: [0, 0.9, 0.8] }, 1),
        ],
        surfaces: [GREY, WHITE],
        skyIlluminance_lx: 20,
      },
      64,
    ),
    frame(
      'a rough coat and a metal',
      {
        parts: [
          FLOOR,
          opaque(box([-1, 0.6, -0.5], [1.4, 1.2, 0.2], [0, 30, 0]), 1),
          opaque(box([1, 0.6, -0.5], [1.4, 1.2, 0.2], [0, -30, 0]), 2),
        ],
        surfaces: [
          { ...GREY, coatIor: 1.33, roughness: 0.5 },
          { ...GREY, coatIor: 1.5, roughness: 0.35 },
          { metal: { n: [0.2, 0.9, 1.4], k: [3.9, 2.4, 1.9] }, roughness: 0.4 },
        ],
        lamps: [lampAt([2, 3, 2], [0, 0, 0], BEAM, { shape: 'disc', radius_m: 0.2 })],
        skyIlluminance_lx: 1,
      },
      96,
    ),
    frame(
      'a sharp coat that shows the lamp',
      {
        parts: [FLOOR, opaque(box([0, 1, -2], [4, 2, 0.2]), 1)],
        surfaces: [WHITE, { reflectance: [0.05, 0.02, 0.02], coatIor: 1.5, roughness: 0.04 }],
        lamps: [lampAt([1, 1.6, 1.5], [0, 0.7, -2], LAMBERT, { shape: 'disc', radius_m: 0.25 })],
      },
      96,
    ),
    frame(
      'light that a glossy wall throws on the floor',
      {
        parts: [
          FLOOR,
          opaque(box([0, 1, -2], [4, 2, 0.2]), 1),
          opaque(box([0, 0.6, 1.1], [3, 1.2, 0.05]), 0),
        ],
        surfaces: [WHITE, { reflectance: [0.02, 0.02, 0.02], coatIor: 1.5, roughness: 0.12 }],
        lamps: [lampAt([0, 1.6, 2.5], [0, 1, -2], BEAM, { shape: 'disc', radius_m: 0.15 })],
      },
      192,
      camera([2.5, 2.2, 1], [0, 0, -0.6]),
    ),
    frame(
      'a dirty pane before a lamp',
      {
        parts: [FLOOR, pane(sheetAt(0, 1, -1, 2.4, 1.6))],
        surfaces: [WHITE],
        panes: [{ direct: 0.4, scattered: 0.35, spread_deg: 60 }],
        lamps: [lampAt([0.5, 1.6, -2.5], [0, 0.5, 1], BEAM, { shape: 'disc', radius_m: 0.15 })],
      },
      192,
    ),
    frame(
      'a beam in haze',
      {
        parts: [FLOOR],
        surfaces: [GREY],
        lamps: [lampAt([-3, 2.5, -1], [1, 0.5, 0], BEAM, { shape: 'disc', radius_m: 0.1 })],
        extinction_per_m: 0.05,
        albedo: 0.9,
        anisotropy: 0.7,
      },
      48,
    ),
    frame(
      'dense haze in boxes',
      {
        parts: [FLOOR],
        surfaces: [WHITE],
        lamps: [lampAt([0, 2.5, -1], [0, 0, 0], LAMBERT, { shape: 'disc', radius_m: 0.1 })],
        extinction_per_m: 0.6,
        albedo: 0.9,
        anisotropy: 0.5,
        hazeRegions: [hazeBox([-2, 0, -2], [0, 2, 1]), hazeBox([-0.5, 0.5, -1], [2, 1.5, 2])],
      },
      64,
    ),
    frame(
      'a furnace',
      {
        parts: [opaque(box([0, 0, 0], [6, 4, 6]))],
        surfaces: [{ reflectance: [0.7, 0.7, 0.7] }],
        lamps: [lampAt([0, 1.5, 0], [0, 0, 0.3], LAMBERT, { shape: 'disc', radius_m: 0.3 })],
      },
      64,
      camera([-2.5, 0, 2.5], [0.5, 0, 0], 18),
    ),
    frame(
      'a lens wide open, focused on what is near',
      {
        parts: [
          FLOOR,
          opaque(box([0, 0.5, 2], [0.4, 1, 0.4]), 1),
          opaque(box([1, 0.5, -2], [0.6, 1, 0.4]), 1),
        ],
        surfaces: [GREY, WHITE],
        lamps: [
          lampAt([2, 3, 3], [0, 0, 0], BEAM, { shape: 'disc', radius_m: 0.15 }),
          lampAt([-2, 1.2, -4], [0, 1, 4], LAMBERT, { shape: 'disc', radius_m: 0.1 }),
        ],
      },
      64,
      camera([0, 1.4, 4.5], [0, 0.6, 2], 75, 1.0),
    ),
  ];
}
