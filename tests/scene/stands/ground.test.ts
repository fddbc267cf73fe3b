import { describe, expect, it } from 'vitest';
import { compileScene } from '../../../src/scene/compile/compile-scene.ts';
import type { Lamp } from '../../../src/scene/schema/lamp.ts';
import { groundOf } from '../../../src/scene/stands/ground.ts';
import { standHeight } from '../../../src/scene/stands/stand-height.ts';
import { edited, opened, smallScene } from '../../support/scenes.ts';

const model = compileScene(
  opened(
    edited(smallScene(), {
      'solids.1': {
        id: 'platform',
        name: 'Platform',
        shape: 'box',
        position_m: [10, 0.6, 0],
        material: 'concrete',
        size_m: [4, 1, 4],
      },
    }),
  ),
  { photometry: new Map(), meshes: new Map() },
);

describe('the ground of what stands somewhere', () => {
  it('is the first thing below it, by its name', () => {
    const { level_m, on } = groundOf(model, [11, 4, 1]);
    expect(level_m).toBeCloseTo(1.1, 12);
    expect(on).toBe('Platform');
  });

  it('is y = 0 where nothing is modelled below, and the place itself under that', () => {
    expect(groundOf(model, [20, 4, 0])).toEqual({ level_m: 0, on: null });
    expect(groundOf(model, [20, -2, 0])).toEqual({ level_m: -2, on: null });
  });
});

describe('the height of a stand', () => {
  const lamp = { id: 'l', head: 'h', position_m: [0, 4.2, 0], aim_m: [0, 0, 0] } as const as unknown as Lamp;
  const stand = { maxHeight_m: 3.1 };

  it('is over its ground; without a stand nothing is too high', () => {
    expect(standHeight(lamp, 1.1)).toMatchObject({ maxHeight_m: null, tooHigh: false });
    // derived: 4.2 − 1.1 = 3.1 m: just so.
    expect(standHeight({ ...lamp, stand }, 1.1)).toMatchObject({ maxHeight_m: 3.1, tooHigh: false });
    expect(standHeight({ ...lamp, stand }, 1.0)).toMatchObject({ maxHeight_m: 3.1, tooHigh: true });
    expect(standHeight({ ...lamp, stand }, 1.0).height_m).toBeCloseTo(3.2, 12);
  });
});
