import { describe, expect, it } from 'vitest';
import type { Vec3 } from '../../../src/core/math/vec3.ts';
import { placeOnSolid, placeText } from '../../../src/scene/mirror/place-on-solid.ts';
import type { SceneDocument } from '../../../src/scene/schema/document.ts';
import { opened } from '../../support/scenes.ts';

const SCENE = opened({
  keyfall: 1,
  title: 'Places',
  solids: [
    {
      id: 'boat',
      name: 'Boat',
      shape: 'vehicle',
      position_m: [0, 0, -4],
      size_m: [24, 3, 3.2],
      roofRadius_m: 0.4,
      material: 'gloss-white',
    },
    {
      id: 'lorry',
      name: 'Lorry',
      shape: 'vehicle',
      position_m: [0, 0, 0],
      // Turned half round: its front toward −x.
      rotation_deg: [0, 180, 0],
      size_m: [8, 3, 2.4],
      material: 'gloss-white',
    },
    { id: 'crate', shape: 'box', position_m: [0, 1, 0], size_m: [4, 2, 1], material: 'gloss-white' },
    { id: 'board', shape: 'panel', position_m: [1, 1, 0], size_m: [2, 2], material: 'gloss-white' },
    {
      id: 'drum',
      shape: 'cylinder',
      position_m: [0, 0.5, 0],
      radius_m: 0.3,
      height_m: 1,
      material: 'gloss-white',
    },
    { id: 'globe', shape: 'sphere', position_m: [0, 0.5, 0], radius_m: 0.3, material: 'gloss-white' },
  ],
} satisfies SceneDocument);

const said = (owner: string, point: Vec3, normal: Vec3) =>
  placeText(placeOnSolid(SCENE, owner, point, normal), point);

describe('where on a thing a point is', () => {
  it.each([
    // derived: the bow is at x = 12, the right side at z = −2.4
    [[7.8, 2.4, -2.4], [0, 0, 1], 'right side, 4.20 m from the bow, 2.40 m up'],
    [[7.8, 2.4, -5.6], [0, 0, -1], 'left side, 4.20 m from the bow, 2.40 m up'],
    [[7.8, 2.4, -5.5], [0, 0, 1], 'left side, inside, 4.20 m from the bow, 2.40 m up'],
    [[12, 1, -4], [1, 0, 0], 'bow, 1.60 m from its right side, 1.00 m up'],
    [[-12, 1, -4], [-1, 0, 0], 'stern, 1.60 m from its right side, 1.00 m up'],
    [[0, 3, -4], [0, 1, 0], 'roof, 12.00 m from the bow, 3.00 m up'],
    [[0, 2.94, -4], [0, -1, 0], 'ceiling, 12.00 m from the bow, 2.94 m up'],
    [[0, 2.9, -2.5], [0, 0.7, 0.7], 'right roof edge, 12.00 m from the bow, 2.90 m up'],
  ] as [Vec3, Vec3, string][])('on a boat, at %j: %s', (point, normal, words) => {
    expect(said('boat', point, normal)).toBe(words.replaceAll('-', '−'));
  });

  it('calls the ends of what does not float front and back, and follows its heading', () => {
    expect(said('lorry', [-3, 1, -1.2], [0, 0, -1])).toBe('right side, 1.00 m from the front, 1.00 m up');
    expect(said('lorry', [4, 1, 0], [1, 0, 0])).toBe('back, 1.20 m from its right side, 1.00 m up');
  });

  it('on boxes and panels, from the left as one faces them; on what lies flat, on plan', () => {
    expect(said('crate', [-1.5, 1, 0.5], [0, 0, 1])).toBe('front, 0.50 m from its left edge, 1.00 m up');
    expect(said('crate', [-1.5, 1, -0.5], [0, 0, -1])).toBe('back, 3.50 m from its left edge, 1.00 m up');
    expect(said('crate', [2, 1, 0.2], [1, 0, 0])).toBe('right side, 0.30 m from its left edge, 1.00 m up');
    expect(said('crate', [-2, 1, 0.2], [-1, 0, 0])).toBe('left side, 0.70 m from its left edge, 1.00 m up');
    expect(said('crate', [-1.5, 2, 0.2], [0, 1, 0])).toBe('top, at x −1.50 m, z 0.20 m');
    expect(said('board', [0.5, 1, 0], [0, 0, 1])).toBe('front, 0.50 m from its left edge, 1.00 m up');
    expect(said('board', [0.5, 1, 0], [0, 0, -1])).toBe(
      'back, 1.50 m from its left edge as seen from behind, 1.00 m up',
    );
  });

  it('on round and unknown things by height alone', () => {
    expect(said('drum', [0.3, 0.8, 0], [1, 0, 0])).toBe('side, 0.80 m up');
    expect(said('drum', [0, 1, 0], [0, 1, 0])).toBe('top, at x 0.00 m, z 0.00 m');
    expect(said('globe', [0.3, 0.5, 0], [1, 0, 0])).toBe('0.50 m up');
    expect(said('somebody', [0.3, 1.5, 0], [1, 0, 0])).toBe('1.50 m up');
  });
});
