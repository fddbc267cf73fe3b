import { describe, expect, it } from 'vitest';
import { compileScene, newCompileMemo } from '../../../src/scene/compile/compile-scene.ts';
import { LIBRARY } from '../../../src/scene/library/library.ts';
import { burningGlints } from '../../../src/scene/mirror/burning.ts';
import { clearRegionOf, searchClearRegion } from '../../../src/scene/mirror/clear-region.ts';
import { keepOutAt, keepOutsOf } from '../../../src/scene/mirror/keep-out.ts';
import { lampStanding } from '../../../src/scene/mirror/lamp-standing.ts';
import { withLampAt } from '../../../src/scene/mirror/moved.ts';
import { regionHolds, toEdge_m } from '../../../src/scene/mirror/plan.ts';
import { fitsAt } from '../../../src/scene/mirror/standing.ts';
import type { SceneDocument } from '../../../src/scene/schema/document.ts';
import { rakedSide } from '../../support/raked-side.ts';

const FILES = { photometry: new Map(), meshes: new Map() };

function seen(document: SceneDocument) {
  return { document, model: compileScene(document, FILES), camera: document.cameras![0]! };
}

const WINDOWED = {
  id: 'body',
  shape: 'vehicle',
  material: 'gloss',
  position_m: [5, 0, -1.5],
  size_m: [30, 3, 3],
  roofRadius_m: 0,
  windows: [{ side: 'right', count: 6, first_m: 2, pitch_m: 4.5, width_m: 2, sill_m: 1.5, head_m: 2.9 }],
};
const POST = {
  id: 'post',
  shape: 'cylinder',
  position_m: [17, 1.5, 2.4],
  radius_m: 0.25,
  height_m: 3,
  material: 'matte-black',
};
const SETS: Readonly<Record<string, Record<string, unknown>>> = {
  'a flat side': {},
  'a side with open windows and a post before it': { 'solids.0': WINDOWED, 'solids.1': POST },
  'a satin side, a rounded roof and a kept-out strip': {
    'materials.gloss.roughness': 0.08,
    'solids.0': { ...WINDOWED, windows: [], roofRadius_m: 0.4 },
    site: {
      keepOut: [
        {
          id: 'strip',
          outline_m: [
            [15, 0.5],
            [30, 2],
            [30, 2.4],
            [15, 0.9],
          ],
        },
      ],
    },
    'lamps.0.stand': { maxHeight_m: 4, footRadius_m: 0.3 },
  },
  'a column behind a screen': {
    'solids.1': {
      id: 'screen',
      shape: 'box',
      material: 'matte-black',
      position_m: [18, 1.5, 2],
      size_m: [0.2, 4, 1.2],
    },
    'solids.0': {
      id: 'body',
      shape: 'cylinder',
      material: 'gloss',
      position_m: [12, 1.5, 1],
      radius_m: 0.8,
      height_m: 3,
    },
  },
};

describe('the clear region', () => {
  // Brute force: the document written with the lamp at every point of a 0.25 m grid (set off from the region's own), the
  // same question asked. Margin 0.1 m from the border: corners of the outline are cut by up to 0.13 m.
  it.each(Object.entries(SETS))('agrees with asking everywhere on a 0.25 m grid: %s', (_, changes) => {
    const document = rakedSide(changes);
    const scene = seen(document);
    const [low_m, high_m] = [
      [22, 0.4],
      [30, 5.4],
    ] as const;
    const region = clearRegionOf(scene, { lamp: 'back', low_m, high_m });
    const standing = lampStanding(document, scene.model, document.lamps![0]!);
    const areas = keepOutsOf(document);
    const memo = newCompileMemo();
    let asked = 0;
    let agreed = 0;
    let clear = 0;
    for (let x = low_m[0] + 0.11; x < high_m[0]; x += 0.25)
      for (let z = low_m[1] + 0.07; z < high_m[1]; z += 0.25) {
        if (toEdge_m(region.clear, x, z) < 0.1) continue;
        const moved = withLampAt(document, 'back', [x, 3, z]);
        const model = compileScene(moved, FILES, LIBRARY, memo);
        const expected =
          fitsAt(standing, [x, 3, z]) &&
          !keepOutAt(areas, x, z, standing.stander.footRadius_m) &&
          burningGlints(document, model, scene.camera).length === 0;
        asked++;
        if (expected) clear++;
        if (regionHolds(region.clear, x, z) === expected) agreed++;
      }
    expect(asked).toBeGreaterThan(500);
    expect(clear).toBeGreaterThan(20);
    expect(clear).toBeLessThan(asked - 20);
    expect(agreed / asked).toBeGreaterThan(0.995);
  });

  it('tells where it is clear from where the lamp stands', () => {
    const region = clearRegionOf(seen(rakedSide()), { lamp: 'back', low_m: [20, 0.2], high_m: [32, 6] });
    expect(region.clearHere).toBe(false);
    expect(region.nearest!.distance_m).toBeLessThan(1);
    const [x, z] = region.nearest!.at_m;
    expect(Math.hypot(x - 25, z - 2)).toBeCloseTo(region.nearest!.distance_m, 9);
    const back = region.ways.find(({ way }) => way === 'back')!;
    expect(back.reach_m).toBeCloseTo(7, 6);
    expect(back.stretches).toHaveLength(1);
    expect(back.stretches[0]!.to_m).toBeCloseTo(7, 2);
    // The lamp looks toward −x, so its left is toward +z, and there it goes on to mirror.
    expect(region.ways.find(({ way }) => way === 'right')!.stretches.length).toBeGreaterThan(0);
  });

  it('counts only the solids that are asked for', () => {
    const wall = {
      id: 'wall',
      shape: 'box',
      position_m: [34, 4, 5],
      size_m: [0.4, 8, 14],
      material: 'gloss',
    };
    const scene = seen(rakedSide({ 'solids.1': wall }));
    const within = { low_m: [22, 0.5], high_m: [28, 5] } as const;
    const all = clearRegionOf(scene, { lamp: 'back', ...within });
    const body = clearRegionOf(scene, { lamp: 'back', ...within, solids: ['body'] });
    const none = clearRegionOf(scene, { lamp: 'back', ...within, solids: [] });
    expect(body.clear_m2).toBeGreaterThanOrEqual(all.clear_m2);
    expect(none.clear_m2).toBeCloseTo(none.rectangle_m2, 6);
  });

  it('gives contours of stops at a mark', () => {
    const { stops } = clearRegionOf(seen(rakedSide()), { lamp: 'back', low_m: [15, 1], high_m: [45, 3] });
    expect(stops).toMatchObject({ mark: 'rim' });
    // Derived: on the axis −½ stop is at 25·2^(1/4) = 29.73 m, +1 at 25/√2 = 17.68 m.
    const farthest = (stops_: number) => {
      const { region } = stops!.contours.find(({ atLeast_stops }) => atLeast_stops === stops_)!;
      return Math.max(
        ...region
          .flat(2)
          .filter(([, z]) => Math.abs(z - 2) < 1.1)
          .map(([x]) => x),
      );
    };
    expect(farthest(-0.5)).toBeCloseTo(29.73, 0);
    expect(farthest(1)).toBeCloseTo(17.68, 0);
  });

  it('refuses what it cannot answer', () => {
    const ask = (changes: Record<string, unknown>, request: Record<string, unknown> = {}) =>
      clearRegionOf(seen(rakedSide(changes)), { lamp: 'back', ...request });
    expect(() => ask({}, { lamp: 'bakc' })).toThrow(
      'found no lamp "bakc"; expected one of back; did you mean "back"?',
    );
    expect(() => ask({}, { solids: ['bodies'] })).toThrow('found no solid "bodies"');
    expect(() => ask({}, { mark: 'face' })).toThrow('found no mark "face"');
    expect(() => ask({ 'lamps.0.on': false })).toThrow('lamps[0] (back): found a lamp that is off');
    expect(() => ask({}, { low_m: [30, 0], high_m: [20, 5] })).toThrow(RangeError);
  });

  it('goes on step by step, saying how far it is', () => {
    const search = searchClearRegion(seen(rakedSide()), { lamp: 'back' });
    let before = 0;
    for (let i = 0; i < 10; i++) {
      const step = search.next();
      expect(step.done).toBe(false);
      expect(step.value as number).toBeGreaterThanOrEqual(before);
      before = step.value as number;
    }
    expect(before).toBeLessThan(1);
  });
});
