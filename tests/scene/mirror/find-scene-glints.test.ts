import { describe, expect, it } from 'vitest';
import { CLIP_stops } from '../../../src/core/mirror/glint.ts';
import { compileScene } from '../../../src/scene/compile/compile-scene.ts';
import { findSceneGlints } from '../../../src/scene/mirror/find-scene-glints.ts';
import type { SceneDocument } from '../../../src/scene/schema/document.ts';
import { edited, opened, smallScene } from '../../support/scenes.ts';

const NO_FILES = { photometry: new Map(), meshes: new Map() };

/** A glossy board in the place of the card, lit and seen so that the key mirrors in its middle. */
function shiny(changes: Record<string, unknown> = {}): SceneDocument {
  return opened(
    edited(smallScene(), {
      materials: { gloss: { reflectance: 0.1, roughness: 0.02, coatIor: 1.5 } },
      'solids.0.material': 'gloss',
      'solids.0.size_m': [2, 2],
      'lamps.0.position_m': [-2, 1, 4],
      'cameras.0.position_m': [2, 1, 4],
      ...changes,
    }),
  );
}

const report = (scene: SceneDocument, camera?: string) =>
  findSceneGlints(scene, compileScene(scene, NO_FILES), { camera });

describe('glints of a scene', () => {
  it('name lamp, solid and place, and say whether they burn', () => {
    const { glints, camera, clip_stops, zero_cd_m2 } = report(shiny());
    expect(camera).toBe('a');
    expect(clip_stops).toBe(CLIP_stops);
    // derived: K·N²/(t·S) = 12.5·16·50/800
    expect(zero_cd_m2).toBeCloseTo(12.5, 9);
    expect(glints).toHaveLength(1);
    expect(glints[0]).toMatchObject({
      lamp: 'key',
      lampName: 'key',
      solid: 'card',
      solidName: 'card',
      inFrame: true,
      burns: true,
      kind: 'image',
      place: { side: 'front', height_m: 1 },
    });
    // derived: by symmetry in the middle
    expect(glints[0]!.pixel![0]).toBeCloseTo(0.5, 6);
    expect(glints[0]!.place.along_m).toBeCloseTo(1, 6);
  });

  it('say how far the inputs may put them off: photometry, and a stop for the face and the finish', () => {
    // derived: a stated beam ±⅔, in quadrature with 1
    expect(report(shiny()).glints[0]!.uncertainty_stops).toBeCloseTo(Math.hypot(2 / 3, 1), 9);
    // derived: haze takes 3.912/40·8.94 m·log₂e = 1.26 stops, counted as 1
    const hazy = report(shiny({ haze: { visibility_m: 40 } }));
    expect(hazy.glints[0]!.uncertainty_stops).toBeCloseTo(Math.hypot(2 / 3, 1, 1), 9);
  });

  it('do not burn out of frame', () => {
    const away = report(shiny({ 'cameras.0.look_m': [8, 1, 4] }));
    expect(away.glints[0]).toMatchObject({ inFrame: false, burns: false });
  });

  it('come with the lamps in view and the veil that these lay over the picture', () => {
    const facing = report(shiny({ 'lamps.0.position_m': [0, 1, 0.1], 'lamps.0.aim_m': [2, 1, 4] }));
    expect(facing.lamps[0]).toMatchObject({ lamp: 'key', inFrame: true, facing: true, hiddenBy: null });
    // derived: 2000 cd at √(4 + 3.9²) = 4.383 m, all but square to the lens: 104.1 lx; 0.02·104.1/π = 0.663 cd/m²
    expect(Math.abs(facing.veil.luminance_cd_m2 / 0.663 - 1)).toBeLessThan(0.01);
    expect(facing.veil.stops).toBeCloseTo(Math.log2(facing.veil.luminance_cd_m2 / 12.5), 9);
  });

  it('list what is left out: too rough a gloss, lamps that are off', () => {
    const rough = report(
      shiny({
        'materials.gloss.roughness': 0.7,
        'lamps.1': {
          id: 'spare',
          name: 'Spare',
          head: 'plain',
          position_m: [0, 2, 2],
          aim_m: [0, 1, 0],
          on: false,
        },
      }),
    );
    expect(rough.glints).toHaveLength(0);
    expect(rough.tooRough).toEqual(['card']);
    expect(rough.lampsOff).toEqual(['Spare']);
  });

  it('are refused without a camera, without lamps, and where none is lit', () => {
    expect(() => report(shiny({ cameras: [] }))).toThrow(/no camera/);
    expect(() => report(shiny(), 'z')).toThrow(/no camera "z".*a/s);
    expect(() => report(shiny({ lamps: [] }))).toThrow(/no lamps/);
    expect(() => report(shiny({ 'lamps.0.on': false }))).toThrow(/no lamp that is lit/);
  });
});
