import { placementFrom } from '../../src/core/geometry/placement.ts';
import { lampAt, modelOf, opaque, sheetAt } from './light-models.ts';

/** A wet floor, a glossy side, haze and one strong lamp: a few bright paths bring much of the light. */
export const WET_YARD = modelOf({
  lamps: [
    lampAt(
      [8, 2, 1],
      [0, 1, 1],
      { kind: 'beam', peak_cd: 20_000, beam_deg: 30, field_deg: 55 },
      { shape: 'disc', radius_m: 0.1 },
    ),
  ],
  parts: [
    opaque({ kind: 'box', placement: placementFrom([0, -0.5, 0]), halfSize_m: [10, 0.5, 5] }, 0),
    opaque(sheetAt(0, 1.5, -1, 12, 3), 1),
  ],
  surfaces: [
    { reflectance: [0.1, 0.1, 0.1], roughness: 0.3, coatIor: 1.33 },
    { reflectance: [0.05, 0.05, 0.05], roughness: 0.05, coatIor: 1.5 },
  ],
  extinction_per_m: 0.01,
  albedo: 0.95,
  anisotropy: 0.8,
});
