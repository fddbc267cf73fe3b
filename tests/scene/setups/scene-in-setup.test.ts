import { describe, expect, it } from 'vitest';
import { openRaw } from '../../../src/scene/file/open-scene.ts';
import { sceneInSetup } from '../../../src/scene/setups/scene-in-setup.ts';
import { fullScene, smallScene } from '../../support/scenes.ts';

describe('scene in a setup', () => {
  it('is the base when none is asked for', () => {
    const scene = fullScene();
    expect(sceneInSetup(scene, undefined)).toBe(scene);
  });

  it('has the changes of the setup that is asked for', () => {
    expect(sceneInSetup(fullScene(), '1a').lamps![1]!.on).toBe(false);
    expect(sceneInSetup(fullScene(), '1b').lamps![1]!.on).toBeUndefined();
  });

  it('is a valid scene for every setup that was accepted', () => {
    for (const { id } of fullScene().setups!)
      expect(openRaw(sceneInSetup(fullScene(), id)).problems).toEqual([]);
  });

  it('names the setups there are, when it is asked for another', () => {
    expect(() => sceneInSetup(fullScene(), '1c')).toThrow(
      'setups: found no setup "1c"; expected one of 1a, 1b; did you mean "1a"?',
    );
    expect(() => sceneInSetup(smallScene(), '1c')).toThrow(
      'setups: found no setup "1c"; expected none: the scene has no setups',
    );
  });
});
