import { describe, expect, it } from 'vitest';
import { compileScene } from '../../../src/scene/compile/compile-scene.ts';
import { lensReport } from '../../../src/scene/framing/lens-report.ts';
import { type SharpRegion, sharpRegion } from '../../../src/scene/framing/sharp-region.ts';
import { opened } from '../../support/scenes.ts';

/** 36 × 24 mm behind 36 mm at f/2, level, 1.5 m up, looking along −z: the floor at distance d lies 2.25/d below the middle. */
const CAMERA = {
  id: 'a',
  position_m: [0, 1.5, 0],
  look_m: [0, 1.5, -10],
  sensor_mm: [36, 24],
  focal_mm: 36,
  fNumber: 2,
  shutter_s: 0.02,
  iso: 800,
  focus_m: 8,
};
/** derived: c = √(36² + 24²)/1500 = 0.028844 mm, H = 36²/(2c) + 36 mm = 22.5014 m, s·(H − f)/(H + s − 2f), s·(H − f)/(H − s) */
const NEAR_m = 5.90623;
const FAR_m = 12.39352;
/** An outline lies within one line of sight of where it should: 320 across, 213 down. */
const WITHIN = 1 / 213;

const FLOOR = {
  id: 'floor',
  shape: 'box',
  position_m: [0, -0.5, -50],
  size_m: [300, 1, 120],
  material: 'grey-card',
};

function wall(distance_m: number, name: { material: string } | { pane: string }) {
  return {
    id: `wall-${distance_m}`,
    shape: 'pane' in name ? 'pane' : 'panel',
    position_m: [0, 1.5, -distance_m],
    size_m: [400, 3],
    ...name,
  };
}

function regionOf(solids: readonly unknown[], camera: object = CAMERA): SharpRegion {
  const document = opened({ keyfall: 1, title: 'Level', solids, cameras: [camera] });
  return sharpRegion(document, compileScene(document, { photometry: new Map(), meshes: new Map() }));
}

/** Even-odd, as the frame draws it. */
function isSharp({ rings }: SharpRegion, u: number, v: number): boolean {
  let inside = false;
  for (const ring of rings) {
    ring.forEach(([u1, v1], i) => {
      const [u0, v0] = ring.at(i - 1)!;
      if (v0 > v !== v1 > v && u < u0 + ((v - v0) / (v1 - v0)) * (u1 - u0)) inside = !inside;
    });
  }
  return inside;
}

describe('what is sharp in the frame', () => {
  it('is the floor from the near limit to the far one, as the lens sheet has them', () => {
    const region = regionOf([FLOOR]);
    const document = opened({ keyfall: 1, title: 'Level', solids: [FLOOR], cameras: [CAMERA] });
    const { lens } = lensReport(
      document,
      compileScene(document, { photometry: new Map(), meshes: new Map() }),
    );
    expect([region.near_m, region.far_m]).toEqual([lens.near_m, lens.far_m]);
    expect(region.near_m).toBeCloseTo(NEAR_m, 4);
    expect(region.far_m).toBeCloseTo(FAR_m, 4);
    // derived: 0.5 + 2.25/d
    const down = region.rings.flat().map(([, v]) => v);
    expect(Math.abs(Math.max(...down) - (0.5 + 2.25 / NEAR_m))).toBeLessThan(WITHIN);
    expect(Math.abs(Math.min(...down) - (0.5 + 2.25 / FAR_m))).toBeLessThan(WITHIN);
    for (const [v, sharp] of [
      [0.3, false],
      [0.6, false],
      [0.75, true],
      [0.86, true],
      [0.95, false],
    ] as const)
      expect(isSharp(region, 0.4, v)).toBe(sharp);
  });

  it('is measured along the axis: a level wall is sharp from edge to edge, or nowhere', () => {
    const sharp = regionOf([wall(12, { material: 'grey-card' })]);
    const soft = regionOf([wall(13, { material: 'grey-card' })]);
    for (const u of [0.02, 0.5, 0.98]) {
      expect(isSharp(sharp, u, 0.5)).toBe(true);
      expect(isSharp(soft, u, 0.5)).toBe(false);
    }
    expect(soft.rings).toEqual([]);
  });

  it('looks through clear panes, and not through a wall', () => {
    const behind = wall(8, { material: 'grey-card' });
    expect(isSharp(regionOf([wall(3, { pane: 'clear-glass' }), behind]), 0.5, 0.5)).toBe(true);
    expect(isSharp(regionOf([wall(3, { material: 'grey-card' }), behind]), 0.5, 0.5)).toBe(false);
  });

  it('takes in the sky where the far limit is infinite, and only there', () => {
    expect(isSharp(regionOf([FLOOR]), 0.5, 0.2)).toBe(false);
    // derived: beyond H = 22.5 m
    const far = regionOf([FLOOR], { ...CAMERA, focus_m: 23 });
    expect(far.far_m).toBeNull();
    expect(isSharp(far, 0.5, 0.2)).toBe(true);
  });

  it('cannot be had where the lens forms no image, and the message says why', () => {
    expect(() => regionOf([FLOOR], { ...CAMERA, focus_m: 0.03 })).toThrow(/within the focal length of 36 mm/);
  });
});
