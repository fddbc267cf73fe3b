import { describe, expect, it } from 'vitest';
import { cureCommand } from '../../../src/editor/answers/cure-command.ts';
import { chosenCamera } from '../../../src/scene/camera/scene-camera.ts';
import { applyCommand } from '../../../src/scene/commands/apply-command.ts';
import { compileScene } from '../../../src/scene/compile/compile-scene.ts';
import { curesOf } from '../../../src/scene/mirror/cures/cures.ts';
import { findSceneGlints } from '../../../src/scene/mirror/find-scene-glints.ts';
import type { SceneDocument } from '../../../src/scene/schema/document.ts';
import { edited, smallScene } from '../../support/scenes.ts';

const NO_FILES = { photometry: new Map(), meshes: new Map() };

/** A glossy board that mirrors the key into the camera. */
const shiny = edited(smallScene(), {
  materials: { gloss: { reflectance: 0.1, roughness: 0.02, coatIor: 1.5 } },
  'solids.0.material': 'gloss',
  'solids.0.size_m': [2, 2],
  'lamps.0.position_m': [-2, 1, 4],
  'cameras.0.position_m': [2, 1, 4],
}) as SceneDocument;

function burningIn(document: SceneDocument): boolean {
  return findSceneGlints(document, compileScene(document, NO_FILES)).glints.some(({ burns }) => burns);
}

describe('trying a cure', () => {
  const model = compileScene(shiny, NO_FILES);
  const [pair] = curesOf({ document: shiny, model, camera: chosenCamera(shiny) });

  it('takes the glint away, by lamp and by camera', () => {
    expect(burningIn(shiny)).toBe(true);
    const clear = pair!.cures.filter(({ appears }) => appears.length === 0);
    expect(clear.map(({ change }) => change.split('-')[0])).toEqual(
      expect.arrayContaining(['lamp', 'camera']),
    );
    for (const cure of clear) {
      const command = cureCommand(shiny, { lamp: 'key', camera: 'a' }, cure)!;
      const { document } = applyCommand(shiny, command);
      expect(burningIn(document!), cure.change).toBe(false);
    }
  });

  it('moves to the decimetre that the words say, and nothing else', () => {
    const cure = pair!.cures.find(({ change }) => change === 'lamp-up')!;
    const { lamps } = applyCommand(shiny, cureCommand(shiny, { lamp: 'key', camera: 'a' }, cure)!).document!;
    const [x, y, z] = lamps![0]!.position_m;
    expect([x, z]).toEqual([-2, 4]);
    expect(y - 1).toBeCloseTo(Math.min(Math.ceil(10 * cure.by_m - 1e-6) / 10, cure.until_m), 3);
  });

  it('is nothing where the lamp has gone', () => {
    const cure = pair!.cures.find(({ change }) => change.startsWith('lamp'))!;
    expect(cureCommand({ ...shiny, lamps: [] }, { lamp: 'key', camera: 'a' }, cure)).toBeNull();
  });
});
