import { compileScene } from '../../../src/scene/compile/compile-scene.ts';
import { type MarkReport, meterScene } from '../../../src/scene/meter/meter-scene.ts';
import type { SceneDocument } from '../../../src/scene/schema/document.ts';
import { opened } from '../../support/scenes.ts';

export const NO_FILES = { photometry: new Map(), meshes: new Map() };

/** One large discharge head of 140 000 cd, nothing else anywhere, and marks as given. f/4, 1/50 s, ISO 800: 250 lx flat. */
export function backlightScene(changes: Partial<SceneDocument> = {}): SceneDocument {
  return opened({
    keyfall: 1,
    title: 'Backlight',
    heads: {
      big: {
        photometry: { kind: 'beam', peak_cd: 140_000, beam_deg: 50, field_deg: 80 },
        face: { shape: 'disc', diameter_m: 0.3 },
        spectrum: { kind: 'discharge', cct_K: 5600 },
        electrical: { kind: 'discharge', input_W: 2070, powerFactor: 0.98 },
      },
    },
    lamps: [{ id: 'back', head: 'big', position_m: [25, 3, 0], aim_m: [0, 3, 0] }],
    marks: [{ id: 'figure', position_m: [0, 3, 0], facing: 'lamp:back', receptor: 'flat' }],
    cameras: [
      {
        id: 'a',
        position_m: [-6, 1.5, 3],
        look_m: [0, 1.5, 0],
        sensor_mm: [36, 24],
        focal_mm: 35,
        fNumber: 4,
        shutter_s: 0.02,
        iso: 800,
      },
    ],
    ...changes,
  });
}

/** The first mark by straight light. */
export function straight(scene: SceneDocument): MarkReport {
  return meterScene(scene, compileScene(scene, NO_FILES), { light: 'direct' }).marks[0]!;
}
