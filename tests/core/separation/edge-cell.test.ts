import { describe, expect, it } from 'vitest';
import { thinLens } from '../../../src/core/camera/thin-lens.ts';
import { placementFrom } from '../../../src/core/geometry/placement.ts';
import type { Part, Shape } from '../../../src/core/geometry/shape.ts';
import { cutOutline, lengthOf, pointAlong } from '../../../src/core/separation/edge-cell.ts';
import { modelOf } from '../../support/light-models.ts';

const LENS = thinLens({
  position_m: [0, 0, 0],
  look_m: [0, 0, -1],
  roll_deg: 0,
  sensor_mm: [36, 24],
  aspect: 1.5,
  focal_mm: 50,
  fNumber: 4,
  focus_m: null,
});
const owned = (shape: Shape, owner: number, pane = false): Part => ({
  shape,
  substance: { kind: pane ? 'pane' : 'material', index: 0 },
  owner,
});
const sheet = (x_m: number, z_m: number, width_m: number): Shape => ({
  kind: 'panel',
  placement: placementFrom([x_m, 0, z_m]),
  halfSize_m: [width_m / 2, 5],
  openings: [],
});
const BALL = owned({ kind: 'sphere', centre_m: [0, 0, -4], radius_m: 0.5 }, 1);
const RADIUS = 0.5 / Math.sqrt(15.75);
/** The edge of the ball, clockwise. */
const EDGE = Array.from({ length: 720 }, (_, i) => {
  const turn = (-2 * Math.PI * i) / 720;
  return { x: RADIUS * Math.cos(turn), y: RADIUS * Math.sin(turn) };
});
const cut = (parts: readonly Part[], count = 100) =>
  cutOutline(modelOf({ parts, panes: [0.8] }), LENS, 1, [EDGE], count);

describe('cutting an outline', () => {
  it('cuts it into pieces of even length', () => {
    const { cells, hidden, outOfFrame } = cut([BALL]);
    expect(cells).toHaveLength(100);
    // derived: a hundredth of the circle each
    for (const { line } of cells)
      expect(Math.abs(lengthOf(line) / ((2 * Math.PI * RADIUS) / 100) - 1)).toBeLessThan(0.001);
    expect(hidden).toBe(0);
    expect(outOfFrame).toBeCloseTo(0, 9);
    expect(cells.every(({ behind }) => behind === -1)).toBe(true);
  });

  it('has outward on the left of the line', () => {
    const [first] = cut([BALL]).cells;
    const out = pointAlong(first!.line, first!.length / 2, 0.01, { x: 0, y: 0 });
    expect(Math.hypot(out.x, out.y)).toBeCloseTo(RADIUS + 0.01, 5);
  });

  it('leaves out what is hidden, and says how much', () => {
    // derived: a sheet before the left half hides half of the edge
    const { cells, hidden } = cut([BALL, owned(sheet(-5, -2, 10), 0)]);
    expect(Math.abs(hidden - 0.5)).toBeLessThan(0.015);
    expect(cells.every(({ place }) => place.u > 0.499)).toBe(true);
    expect(cells.length).toBeGreaterThanOrEqual(49);
  });

  it('sees through glass, and names what is behind', () => {
    // A pane before the ball, a wall behind its right half.
    const { cells, hidden } = cut([owned(sheet(0, -2, 20), 0, true), BALL, owned(sheet(50, -9, 100), 2)]);
    expect(hidden).toBe(0);
    for (const { place, behind } of cells)
      if (Math.abs(place.u - 0.5) > 0.01) expect(behind).toBe(place.u > 0.5 ? 2 : -1);
  });

  it('names a pane behind the figure by its owner', () => {
    const { cells } = cut([BALL, owned(sheet(0, -7, 40), 0, true)]);
    expect(cells.every(({ behind }) => behind === 0)).toBe(true);
  });

  it('counts what is out of frame apart', () => {
    const shifted = EDGE.map(({ x, y }) => ({ x: x + 0.36, y }));
    const ball = owned({ kind: 'sphere', centre_m: [4 * 0.36, 0, -4], radius_m: 0.5 }, 1);
    // derived: the frame ends at 0.36: half the circle. (The edge of a ball aside is a little out of round.)
    const { cells, outOfFrame } = cutOutline(modelOf({ parts: [ball] }), LENS, 1, [shifted], 100);
    expect(Math.abs(outOfFrame - 0.5)).toBeLessThan(0.01);
    expect(cells.every(({ place }) => place.u <= 1)).toBe(true);
  });

  it('is nothing without an outline', () => {
    expect(cutOutline(modelOf({ parts: [BALL] }), LENS, 1, [], 100)).toEqual({
      cells: [],
      hidden: 0,
      outOfFrame: 1,
    });
  });
});
