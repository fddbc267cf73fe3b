import { compileScene } from '../../../src/scene/compile/compile-scene.ts';
import { findSceneGlints, type GlintReport } from '../../../src/scene/mirror/find-scene-glints.ts';
import type { SceneDocument } from '../../../src/scene/schema/document.ts';
import { backlightScene, NO_FILES } from './backlight.ts';

/**
 * The stories count x along a vehicle, y out from its side and heights from the ground. Here that is x, z and y: the side
 * stands in the plane z = 0, its end at x = 20, flat up to 3.0 m, in smooth clear coat of n = 1.5.
 */
export interface Shiny {
  readonly camera_m: readonly [along: number, out: number, height: number];
  readonly lamp_m: readonly [along: number, out: number, height: number];
  readonly aim_m: readonly [along: number, out: number, height: number];
  /** Radius of the roof edge over the flat side; 0: a plain wall of 3.0 m. */
  readonly roof_m?: number;
  readonly wallHeight_m?: number;
  readonly aspect?: number;
}

const ours = ([along, out, height]: readonly [number, number, number]): [number, number, number] => [
  along,
  height,
  out,
];

export function shinySide(shiny: Shiny, changes: Partial<SceneDocument> = {}): SceneDocument {
  const { camera_m, lamp_m, aim_m, roof_m = 0, wallHeight_m = 3, aspect = 1.5 } = shiny;
  const base = backlightScene();
  const camera = ours(camera_m);
  return backlightScene({
    materials: { coat: { reflectance: 0, roughness: 0, coatIor: 1.5 } },
    solids: [
      roof_m > 0
        ? {
            id: 'vehicle',
            name: 'Vehicle',
            shape: 'vehicle',
            position_m: [8, 0, -1.7],
            size_m: [24, wallHeight_m + roof_m, 3.4],
            roofRadius_m: roof_m,
            material: 'coat',
          }
        : {
            id: 'vehicle',
            name: 'Vehicle',
            shape: 'panel',
            position_m: [8, wallHeight_m / 2, 0],
            size_m: [24, wallHeight_m],
            material: 'coat',
          },
    ],
    lamps: [{ id: 'back', name: 'Backlight', head: 'big', position_m: ours(lamp_m), aim_m: ours(aim_m) }],
    cameras: [
      // Level and parallel to the side, 35 mm on 36 × 24.
      {
        ...base.cameras![0]!,
        position_m: camera,
        look_m: [camera[0] + 10, camera[1], camera[2]],
        aspect,
      },
    ],
    ...changes,
  });
}

export function glintsOf(scene: SceneDocument): GlintReport {
  return findSceneGlints(scene, compileScene(scene, NO_FILES));
}
