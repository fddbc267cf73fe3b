import { openRaw } from '../../src/scene/file/open-scene.ts';
import type { SceneDocument } from '../../src/scene/schema/document.ts';

/** A made-up scene of a given size: crates on a yard, lamps round it. */
export function largeScene(lamps: number, solids: number, marks: number): SceneDocument {
  const round = (i: number, n: number, r: number) => [
    r * Math.cos((2 * Math.PI * i) / n),
    r * Math.sin((2 * Math.PI * i) / n),
  ];
  const across = Math.ceil(Math.sqrt(solids));
  const opened = openRaw({
    keyfall: 1,
    title: 'Large',
    solids: Array.from({ length: solids }, (_, i) => ({
      id: `crate-${i}`,
      shape: 'box',
      position_m: [1.5 * (i % across) - 0.75 * across, 0.4, 1.5 * Math.floor(i / across) - 0.75 * across],
      rotation_deg: [0, (i * 37) % 360, 0],
      material: 'timber-light',
      size_m: [0.8, 0.8, 0.8],
    })),
    lamps: Array.from({ length: lamps }, (_, i) => {
      const [x, z] = round(i, lamps, 40);
      return { id: `lamp-${i}`, head: 'discharge-400', position_m: [x, 5, z], aim_m: [0, 1, 0] };
    }),
    marks: Array.from({ length: marks }, (_, i) => {
      const [x, z] = round(i, marks, 20);
      return { id: `mark-${i}`, position_m: [x, 1.6, z], facing: [0, 1, 0] };
    }),
    cameras: [
      {
        id: 'a',
        position_m: [0, 2, 30],
        look_m: [0, 1, 0],
        sensor_mm: [36, 24],
        focal_mm: 35,
        fNumber: 4,
        shutter_s: 0.02,
        iso: 800,
      },
    ],
  });
  if (!opened.document) throw new Error(opened.problems.map((p) => p.path).join());
  return opened.document;
}
