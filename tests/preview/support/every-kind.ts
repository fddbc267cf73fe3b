import { placementFrom } from '../../../src/core/geometry/placement.ts';
import type { Haze, Lamp, LightModel } from '../../../src/core/light-model/light-model.ts';
import type { CandelaTable } from '../../../src/core/photometry/distribution.ts';
import { sceneModel } from './scene-models.ts';

/** A model in which everything occurs that there is to pack: every kind of face, distribution and surface, boxes of haze. */
export async function modelOfEveryKind(): Promise<LightModel> {
  const quay = await sceneModel('night-quay');
  const apron = await sceneModel('apron-flank');
  const lamps = UNLIKE.map((unlike, i): Lamp => ({ ...quay.lamps[i % quay.lamps.length]!, ...unlike }));
  return {
    ...quay,
    // Bodies name the first of them only; the others, metals among them, are there to be packed.
    surfaces: [...quay.surfaces, ...apron.surfaces],
    lampOnSurface_RGB: Float64Array.from(
      { length: 3 * lamps.length * (quay.surfaces.length + apron.surfaces.length) },
      (_, i) => 0.1 + (i % 97) / 100,
    ),
    lamps,
    haze: HAZE,
  };
}

const HAZE: Haze = {
  extinction_per_m: 0.02,
  albedo: 0.9,
  anisotropy: 0.7,
  regions: [
    { placement: placementFrom([1, 2, 3], [10, 20, 30]), halfSize_m: [4, 2, 1] },
    { placement: placementFrom([-8, 1, 0], [0, 45, 0]), halfSize_m: [1, 1, 1] },
  ],
};

/** Candela that differ from angle to angle and from plane to plane. */
export function unevenTable(
  goniometry: CandelaTable['goniometry'],
  vertical_deg: number[],
  horizontal_deg: number[],
): CandelaTable {
  return {
    kind: 'table',
    goniometry,
    vertical_deg: Float64Array.from(vertical_deg),
    horizontal_deg: Float64Array.from(horizontal_deg),
    candela: Float64Array.from(
      { length: vertical_deg.length * horizontal_deg.length },
      (_, i) => 1000 + 13 * i,
    ),
  };
}

const UNLIKE: readonly Partial<Lamp>[] = [
  { face: { shape: 'octagon', apothem_m: 0.45 }, distribution: unevenTable('C', [0, 10, 25, 90], [0]) },
  {
    face: { shape: 'rectangle', halfSize_m: [0.6, 0.3] },
    distribution: unevenTable('C', [0, 5, 30, 60, 90], [0, 90, 200, 360]),
  },
  { face: { shape: 'disc', radius_m: 0.2 }, distribution: unevenTable('A', [-40, 0, 40], [-60, 10, 60]) },
  {
    distribution: unevenTable('B', [-30, -5, 0, 30], [-20, 20]),
    gain: 0.3,
  },
  { distribution: { kind: 'lambert', peak_cd: 1234 } },
  {},
];
