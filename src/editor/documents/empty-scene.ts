import type { SceneDocument } from '../../scene/schema/document.ts';

/** A field, a night sky and a camera: the least that everything else can be put into. Readable at once, metered from the first mark. */
export function emptyScene(): SceneDocument {
  return {
    keyfall: 1,
    title: 'New scene',
    site: { sky: { illuminance_lx: 0.3, cct_K: 4100 } },
    solids: [
      {
        id: 'ground',
        name: 'Ground',
        shape: 'box',
        position_m: [0, -0.1, 0],
        material: 'asphalt-dry',
        size_m: [60, 0.2, 60],
      },
    ],
    cameras: [
      {
        id: 'a',
        name: 'A',
        position_m: [0, 1.5, 8],
        look_m: [0, 1.4, 0],
        sensor_mm: [36, 24],
        aspect: 1.7778,
        focal_mm: 35,
        fNumber: 4,
        shutter_s: 0.02,
        iso: 800,
        whiteBalance_K: 4300,
        focus_m: 8,
      },
    ],
  };
}
