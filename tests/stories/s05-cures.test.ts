import { describe, expect, it } from 'vitest';
import { compileScene } from '../../src/scene/compile/compile-scene.ts';
import { glintsAlongPath } from '../../src/scene/mirror/along-path.ts';
import { clearRegionOf } from '../../src/scene/mirror/clear-region.ts';
import { litMarks } from '../../src/scene/mirror/cures/cost.ts';
import { curesOf } from '../../src/scene/mirror/cures/cures.ts';
import type { SceneDocument } from '../../src/scene/schema/document.ts';
import { rakedSide } from '../support/raked-side.ts';
import { EXPOSURE_STOPS } from '../tolerances.ts';

/**
 * A lamp 2 m out from a glossy side, 25 m from a camera 6 m out, mirrors on the body, whose end is at x = 20. In the plane
 * of reflection the image of a point y out is at x = k·x_lamp with k = 6/(6 + y). The lamp's face is a disc of 0.30 m, so
 * its rim reaches from y = 1.85 to y = 2.15.
 */
function seen(document: SceneDocument) {
  const model = compileScene(document, { photometry: new Map(), meshes: new Map() });
  return { document, model, camera: document.cameras![0]! };
}

function cures(document: SceneDocument) {
  const [pair] = curesOf(seen(document));
  expect(pair).toMatchObject({ lamp: 'back', solid: 'body' });
  return new Map(pair!.cures.map((cure) => [cure.change, cure]));
}

describe('S5: a backlight that mirrors off the far end of a side', () => {
  it('is cleared by standing it further back', () => {
    const back = cures(rakedSide()).get('lamp-back')!;
    // Derived: the middle of the image leaves the end at 0.75·x = 20, x = 26.67; the last of its rim at
    // 6/8.15·x = 20, x = 27.17. The finish gives it a fringe, so a little more; 28 m does.
    expect(25 + back.by_m).toBeGreaterThan(27.16);
    expect(25 + back.by_m).toBeLessThan(28);
    expect(25 + back.until_m).toBeGreaterThan(28);
    // Derived: on axis at a mark 25 m off, log2(25²/(25 + by)²); at 28 m that is −0.327.
    expect(back.cost_stops!).toBeCloseTo(2 * Math.log2(25 / (25 + back.by_m)), 2);
  });

  it('at 28 m costs −0.33 stop and is clear', () => {
    const there = seen(rakedSide({ 'lamps.0.position_m': [28, 3, 2] }));
    expect(curesOf(there)).toEqual([]);
    const now = seen(rakedSide());
    // Derived: log2(25²/28²).
    const [rim] = litMarks(now.document, now.model, now.camera);
    expect(Math.abs(rim!.change_stops('back', [28, 3, 2]) + 0.327)).toBeLessThan(EXPOSURE_STOPS);
    const region = clearRegionOf(now, {
      lamp: 'back',
      low_m: [22, 1],
      high_m: [30, 3],
      mark: 'rim',
    });
    const back = region.ways.find(({ way }) => way === 'back')!;
    expect(25 + back.stretches[0]!.from_m).toBeLessThan(28);
    // Derived: −½ stop is at 25·2^(1/4) = 29.73 m.
    const half = region.stops!.contours.find(({ atLeast_stops }) => atLeast_stops === -0.5)!;
    const farthest = Math.max(...half.region.flat(2).map(([x]) => x));
    expect(farthest).toBeCloseTo(29.73, 1);
  });

  it('is cleared by standing it closer to the side, if that is allowed', () => {
    // Derived: the rim at y + 0.15 clears where 6/(6.15 + y)·25 = 20, y = 1.35, 0.65 m in; the middle at y = 1.5.
    const inward = cures(rakedSide()).get('lamp-in')!;
    expect(2 - inward.by_m).toBeLessThan(1.36);
    expect(2 - inward.by_m).toBeGreaterThan(1.1);
    const zone = [
      [-10, 0],
      [40, 0],
      [40, 1.45],
      [-10, 1.45],
    ];
    const shut = rakedSide({ site: { keepOut: [{ id: 'edge', name: 'Edge', outline_m: zone }] } });
    expect(cures(shut).has('lamp-in')).toBe(false);
  });

  it('limits how far the camera may track back and push in', () => {
    const document = rakedSide({
      'lamps.0.position_m': [28, 3, 2],
      paths: [
        {
          id: 'track-back',
          of: 'a',
          points: [
            { t_s: 0, position_m: [0, 1.5, 6] },
            { t_s: 6, position_m: [-6, 1.5, 6] },
          ],
        },
        {
          id: 'push-in',
          of: 'a',
          points: [
            { t_s: 0, position_m: [0, 1.5, 6] },
            { t_s: 4, position_m: [0, 1.5, 4] },
          ],
        },
      ],
    });
    const scene = seen(document);
    const [back, ...noMore] = glintsAlongPath(scene, 'track-back').runs;
    expect(noMore).toEqual([]);
    // Derived: from m back, the image's middle is at −m + 0.75·(28 + m): on the body from 0.25·m = 1, m = 4 on; at 1 m/s.
    expect(back!.image!.from_m).toBeGreaterThan(3.97);
    expect(back!.image!.from_m).toBeLessThan(4.03);
    expect(back!.image!.to_s).toBe(6);
    // Derived: the rim, k = 6/8.15, comes on at 0.7362·(28 + m) − m = 20, m = 2.33; its fringe before.
    expect(back!.from_m).toBeLessThan(2.33);
    expect(back!.from_m).toBeGreaterThan(0);
    expect(back!.peak_stops).toBeGreaterThan(10);

    const [pushed] = glintsAlongPath(scene, 'push-in').runs;
    // Derived: from y out it is at 28·y/(y + 2): on the body from y = 5 on, 1 m in, at 0.5 m/s.
    expect(pushed!.image!.from_m).toBeGreaterThan(0.97);
    expect(pushed!.image!.from_m).toBeLessThan(1.03);
    expect(pushed!.image!.from_s).toBeCloseTo(2, 1);
    expect(pushed!.fromPosition_m[2]).toBeGreaterThan(5);
  });
});
