import type { SceneDocument } from '../../src/scene/schema/document.ts';
import { edited, opened } from './scenes.ts';

/**
 * One camera, one strong lamp far down a glossy side, all at round figures. The side is the plane z = 0 from x = −10 to
 * x = 20, 3 m high; the camera stands 6 m out from it at x = 0, 1.5 m up, and looks along it; the lamp stands 2 m out at
 * x = 25, 3 m up, aimed straight back along the side. The finish is a perfect mirror's coat of index 1.5.
 */
export function rakedSide(changes: Readonly<Record<string, unknown>> = {}): SceneDocument {
  return opened(
    edited(
      {
        keyfall: 1,
        title: 'Raked side',
        materials: { gloss: { reflectance: 0.05, roughness: 0, coatIor: 1.5 } },
        solids: [
          { id: 'body', shape: 'box', position_m: [5, 1.5, -1.5], size_m: [30, 3, 3], material: 'gloss' },
        ],
        heads: {
          big: {
            photometry: { kind: 'beam', peak_cd: 140_000, beam_deg: 50, field_deg: 80 },
            face: { shape: 'disc', diameter_m: 0.3 },
            spectrum: { kind: 'daylight', cct_K: 5600 },
          },
        },
        lamps: [{ id: 'back', head: 'big', position_m: [25, 3, 2], aim_m: [0, 3, 2] }],
        marks: [{ id: 'rim', position_m: [0, 3, 2], facing: 'lamp:back', receptor: 'flat' }],
        cameras: [
          {
            id: 'a',
            position_m: [0, 1.5, 6],
            look_m: [10, 1.5, 6],
            sensor_mm: [36, 24],
            focal_mm: 35,
            fNumber: 4,
            shutter_s: 0.02,
            iso: 800,
          },
        ],
      },
      changes,
    ),
  );
}
