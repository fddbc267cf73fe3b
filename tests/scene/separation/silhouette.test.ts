import { describe, expect, it } from 'vitest';
import { type ThinLens, thinLens } from '../../../src/core/camera/thin-lens.ts';
import { placementFrom } from '../../../src/core/geometry/placement.ts';
import type { Part, Shape } from '../../../src/core/geometry/shape.ts';
import type { PlanePoint } from '../../../src/core/separation/image-plane.ts';
import { silhouetteOf } from '../../../src/scene/separation/silhouette.ts';

const LENS = lens();

function lens(more: Partial<Parameters<typeof thinLens>[0]> = {}): ThinLens {
  return thinLens({
    position_m: [0, 0, 0],
    look_m: [0, 0, -1],
    roll_deg: 0,
    sensor_mm: [36, 24],
    aspect: 1.5,
    focal_mm: 50,
    fNumber: 4,
    focus_m: null,
    ...more,
  });
}

const part = (shape: Shape): Part => ({ shape, substance: { kind: 'material', index: 0 }, owner: 0 });
const ball = (x_m: number, z_m: number, radius_m: number) =>
  part({ kind: 'sphere', centre_m: [x_m, 0, z_m], radius_m });

/** Twice the area, above zero where the ring runs counter-clockwise with y up. */
const turning = (ring: readonly PlanePoint[]) =>
  ring.reduce((sum, a, i) => {
    const b = ring[(i + 1) % ring.length]!;
    return sum + a.x * b.y - a.y * b.x;
  }, 0);

describe('silhouette', () => {
  it('of a ball straight ahead is a circle of tan α = R/√(d² − R²)', () => {
    // derived: 0.5 m at 4 m: 0.5/√15.75 = 0.12599
    const { rings } = silhouetteOf(LENS, [ball(0, -4, 0.5)]);
    expect(rings).toHaveLength(1);
    for (const { x, y } of rings[0]!) expect(Math.abs(Math.hypot(x, y) / 0.12599 - 1)).toBeLessThan(2e-4);
    // The ball lies on the right of the line: clockwise.
    expect(turning(rings[0]!)).toBeLessThan(0);
  });

  it('has its vertices on the very edge of a ball aside too, an ellipse', () => {
    // derived: the cone round the line to (0.5, 0, −3): cos α = √(1 − R²/d²), d² = 9.25; every edge direction is at α from it
    const { rings } = silhouetteOf(LENS, [ball(0.5, -3, 0.4)]);
    const cone = Math.sqrt(1 - 0.16 / 9.25);
    for (const { x, y } of rings[0]!) {
      const cos = (0.5 * x + 3) / Math.sqrt(x * x + y * y + 1) / Math.sqrt(9.25);
      expect(Math.abs(Math.acos(cos) - Math.acos(cone))).toBeLessThan(1e-5);
    }
  });

  it('goes round holes the other way, the body on the same side', () => {
    const frame = part({
      kind: 'panel',
      placement: placementFrom([0, 0, -3]),
      halfSize_m: [0.5, 0.5],
      openings: [{ left_m: -0.2, bottom_m: -0.2, right_m: 0.2, top_m: 0.2 }],
    });
    const { rings } = silhouetteOf(LENS, [frame]);
    // derived: twice the areas 1/9 and 0.16/9 in the plane at unit distance, less what the corners are cut off by
    const areas = rings.map(turning).sort((a, b) => a - b);
    expect(areas).toHaveLength(2);
    expect(Math.abs(areas[0]! + 2 / 9)).toBeLessThan(0.001);
    expect(Math.abs(areas[1]! - (2 * 0.16) / 9)).toBeLessThan(0.001);
  });

  it('takes two bodies apart for two rings, and touching ones for one', () => {
    expect(silhouetteOf(LENS, [ball(-0.6, -4, 0.3), ball(0.6, -4, 0.3)]).rings).toHaveLength(2);
    expect(silhouetteOf(LENS, [ball(-0.2, -4, 0.3), ball(0.2, -4, 0.3)]).rings).toHaveLength(1);
  });

  it('is cut off a little beyond the frame, and is nothing for what is behind', () => {
    // derived: 36 mm at 50 mm: the frame ends at x = ±0.36
    const { rings } = silhouetteOf(LENS, [ball(1.5, -4, 0.5)]);
    const most = Math.max(...rings.flat().map(({ x }) => x));
    expect(most).toBeGreaterThan(0.36);
    expect(most).toBeLessThan(0.38);
    expect(silhouetteOf(LENS, [ball(0, 4, 0.5)]).rings).toEqual([]);
    expect(silhouetteOf(LENS, [ball(40, -4, 0.5)]).rings).toEqual([]);
  });

  it('stands a camera that is inside or hard by the body', () => {
    for (const z of [0, -0.4, -0.52]) {
      const { rings } = silhouetteOf(LENS, [ball(0, z, 0.5)]);
      for (const { x, y } of rings.flat()) expect(Number.isFinite(x + y)).toBe(true);
    }
  });
});
