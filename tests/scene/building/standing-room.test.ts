import { describe, expect, it } from 'vitest';
import {
  bodiesOf,
  hasFloor,
  isInside,
  seesFreely,
  standingLevel_m,
  surfaceAlong,
} from '../../../src/scene/building/standing-room.ts';
import { opened } from '../../support/scenes.ts';
import { EMPTY, sceneNamed } from './support.ts';

const box = (id: string, x: number, bottom: number, top: number, size = 4) => ({
  id,
  shape: 'box',
  position_m: [x, (bottom + top) / 2, 0],
  size_m: [size, top - bottom, size],
  material: 'concrete',
});

describe('the level that things stand on', () => {
  const quay = bodiesOf(sceneNamed('night-quay'));

  it('is the floor nearest to the one that is meant', () => {
    expect(standingLevel_m(quay, 4, 0, 0)).toBe(0);
    expect(standingLevel_m(quay, 4, 20, 0)).toBeCloseTo(-1.4, 9);
    // On the trunk, which leaves no headroom under it; in the boat, on its floor or, meant so, its roof.
    expect(standingLevel_m(quay, -3.1, 0.5, 0)).toBe(0.5);
    expect(standingLevel_m(quay, 3, -4.9, 0)).toBeCloseTo(-0.8, 9);
    expect(standingLevel_m(quay, 3, -4.9, 3)).toBeCloseTo(2.5, 9);
  });

  it('is under a canopy, and on a block without a floor under it', () => {
    const scene = bodiesOf(
      opened({
        ...EMPTY,
        solids: [box('floor', 0, -1, 0, 40), box('canopy', 0, 3, 3.2), box('block', 8, 0, 2.5)],
      }),
    );
    expect(standingLevel_m(scene, 0, 0, 0)).toBe(0);
    expect(standingLevel_m(scene, 8, 0, 0)).toBe(2.5);
  });

  it('is as given where nothing is modelled, with meshes left out', () => {
    const scene = bodiesOf(
      opened({
        ...EMPTY,
        solids: [{ id: 'm', shape: 'mesh', position_m: [0, 0, 0], material: 'concrete', file: 'm.glb' }],
      }),
    );
    expect(standingLevel_m(scene, 0, 0, 0.7)).toBe(0.7);
    expect(hasFloor(scene, 0, 0)).toBe(false);
    expect(standingLevel_m(bodiesOf(EMPTY), 5, 5, 0)).toBe(0);
  });
});

describe('bodies', () => {
  const scene = bodiesOf(opened({ ...EMPTY, solids: [box('block', 0, 0, 2)] }));

  it('hold, hide and face', () => {
    expect(isInside(scene, [0, 1, 0])).toBe(true);
    expect(isInside(scene, [5, 1, 0])).toBe(false);
    expect(seesFreely(scene, [-5, 1, 0], [5, 1, 0])).toBe(false);
    expect(seesFreely(scene, [-5, 3, 0], [5, 3, 0])).toBe(true);
    expect(surfaceAlong(scene, [-5, 1, 0], [1, 0, 0])).toMatchObject({
      point_m: [-2, 1, 0],
      normal: [-1, 0, 0],
    });
    expect(surfaceAlong(scene, [-5, 3, 0], [1, 0, 0])).toBeNull();
  });
});
