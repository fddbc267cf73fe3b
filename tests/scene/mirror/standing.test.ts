import { describe, expect, it } from 'vitest';
import { compileScene } from '../../../src/scene/compile/compile-scene.ts';
import { lampStanding } from '../../../src/scene/mirror/lamp-standing.ts';
import { fitsAt, mayMoveTo, mayStandAt } from '../../../src/scene/mirror/standing.ts';
import { rakedSide } from '../../support/raked-side.ts';

const QUAY = {
  id: 'quay',
  shape: 'box',
  position_m: [20, -0.5, 5],
  size_m: [40, 1, 10],
  material: 'matte-black',
};
const VAN = { id: 'van', shape: 'vehicle', position_m: [24, 0, 7], size_m: [4, 2.5, 2], material: 'gloss' };

function standing(changes: Record<string, unknown> = {}) {
  const document = rakedSide({ 'solids.1': QUAY, ...changes });
  const model = compileScene(document, { photometry: new Map(), meshes: new Map() });
  return lampStanding(document, model, document.lamps![0]!);
}

describe('where a lamp may stand', () => {
  it('is as high as its stand, from the ground that it is on', () => {
    const on = standing({ 'lamps.0.stand': { maxHeight_m: 3.8 } });
    expect(on.ground_m).toBeCloseTo(0, 9);
    expect(mayStandAt(on, [25, 3.8, 2])).toBe(true);
    expect(mayStandAt(on, [25, 3.81, 2])).toBe(false);
    const raised = standing({ 'solids.1.position_m': [20, 0.1, 5], 'lamps.0.stand': { maxHeight_m: 3.8 } });
    expect(raised.ground_m).toBeCloseTo(0.6, 9);
    expect(mayStandAt(raised, [25, 4.3, 2])).toBe(true);
    expect(mayStandAt(raised, [25, 4.5, 2])).toBe(false);
  });

  it('is not beyond the edge of the ground, nor on lower ground', () => {
    expect(mayStandAt(standing(), [39, 3, 2])).toBe(true);
    expect(mayStandAt(standing(), [41, 3, 2])).toBe(false);
    const water = {
      id: 'water',
      shape: 'box',
      position_m: [20, -3, 0],
      size_m: [90, 1, 90],
      material: 'matte-black',
    };
    expect(mayStandAt(standing({ 'solids.2': water }), [41, 3, 2])).toBe(false);
  });

  it('is anywhere where no ground is modelled', () => {
    expect(mayStandAt(standing({ 'solids.1': { ...QUAY, position_m: [200, -0.5, 5] } }), [41, 3, 2])).toBe(
      true,
    );
  });

  it('is not inside a solid, nor on the other side of a vehicle’s wall', () => {
    const beside = standing({ 'solids.2': VAN });
    expect(fitsAt(beside, [5, 1, -1])).toBe(false);
    expect(fitsAt(beside, [24, 1.5, 7])).toBe(false);
    expect(fitsAt(beside, [24, 3, 7])).toBe(true);
    const inside = standing({ 'solids.2': VAN, 'lamps.0.position_m': [24, 1.5, 7] });
    expect(fitsAt(inside, [24.5, 1.5, 7])).toBe(true);
    expect(fitsAt(inside, [24, 1.5, 4])).toBe(false);
  });

  it('is reached on a straight way that is free', () => {
    const post = {
      id: 'post',
      shape: 'cylinder',
      position_m: [27, 2, 2],
      radius_m: 0.2,
      height_m: 4,
      material: 'matte-black',
    };
    expect(mayMoveTo(standing(), [29, 3, 2])).toBe(true);
    expect(mayMoveTo(standing({ 'solids.2': post }), [29, 3, 2])).toBe(false);
    expect(mayStandAt(standing({ 'solids.2': post }), [29, 3, 2])).toBe(true);
  });

  it('keeps out of areas, but not out of the one it is in', () => {
    const area = (x: number) => ({
      id: 'area',
      outline_m: [
        [x, 0],
        [x + 2, 0],
        [x + 2, 4],
        [x, 4],
      ],
    });
    const foot = { maxHeight_m: 4, footRadius_m: 0.4 };
    const before = standing({ 'lamps.0.stand': foot, site: { keepOut: [area(26)] } });
    expect(mayStandAt(before, [25.5, 3, 2])).toBe(true);
    expect(mayStandAt(before, [25.7, 3, 2])).toBe(false);
    expect(mayStandAt(before, [27, 3, 2])).toBe(false);
    const within = standing({ site: { keepOut: [area(24)] } });
    expect(mayStandAt(within, [25.5, 3, 2])).toBe(true);
  });
});
