import { describe, expect, it } from 'vitest';
import { cross, type Vec3 } from '../../../src/core/math/vec3.ts';
import { gridLines, gridSpacing } from '../../../src/editor/plan/drawing/grid.ts';
import { nameSides } from '../../../src/editor/plan/drawing/names.ts';
import { atPlace, flat, PROJECTIONS, SHEETS } from '../../../src/editor/plan/drawing/projection.ts';
import { fitted, onScreen, onSheet, panned, zoomed } from '../../../src/editor/plan/drawing/viewport.ts';

const SIZE = { width_px: 800, height_px: 600 };
const VIEW = { centre_m: [10, -2], scale_px_m: 40 } as const;

describe('a projection', () => {
  it('lays the set flat as its sheet says', () => {
    expect(flat([1, 2, 3], 'plan')).toEqual([1, 3]);
    expect(flat([1, 2, 3], 'along-x')).toEqual([1, -2]);
    expect(flat([1, 2, 3], 'along-z')).toEqual([3, -2]);
  });

  it('puts a point back where its place is, and leaves what the sheet does not show', () => {
    for (const projection of PROJECTIONS) {
      const point: Vec3 = [1.5, 2.5, -3.5];
      expect(atPlace(point, flat(point, projection), projection)).toEqual(point);
    }
    expect(atPlace([1, 2, 3], [7, -8], 'along-z')).toEqual([1, 8, 7]);
  });

  it('is a view, no mirror image: across × up is toward the viewer', () => {
    for (const projection of PROJECTIONS) {
      const { across, down, downSign, toViewer } = SHEETS[projection];
      const unit = (axis: number, sign: number) =>
        [0, 1, 2].map((i) => (i === axis ? sign : 0)) as unknown as Vec3;
      const seen = cross(unit(across, 1), unit(down, -downSign));
      expect(seen.map((v) => v + 0)).toEqual(toViewer.map((v) => v + 0));
    }
  });
});

describe('the sheet on screen', () => {
  it('goes from metres to pixels and back', () => {
    // Derived: 1 m right of the middle at 40 px/m.
    expect(onScreen(VIEW, SIZE, [11, -2])).toEqual([440, 300]);
    expect(onSheet(VIEW, SIZE, [440, 300])).toEqual([11, -2]);
  });

  it('keeps what is under the pointer there when it is magnified, and stops at both ends', () => {
    const at = [123, 456] as const;
    const before = onSheet(VIEW, SIZE, at);
    const closer = zoomed(VIEW, SIZE, at, 3);
    expect(closer.scale_px_m).toBe(120);
    expect(onSheet(closer, SIZE, at)[0]).toBeCloseTo(before[0], 12);
    expect(onSheet(closer, SIZE, at)[1]).toBeCloseTo(before[1], 12);
    expect(zoomed(VIEW, SIZE, at, 1e9).scale_px_m).toBe(1000);
    expect(zoomed(VIEW, SIZE, at, 1e-9).scale_px_m).toBe(0.5);
  });

  it('follows the hand that drags it', () => {
    expect(panned(VIEW, 40, -80).centre_m).toEqual([9, 0]);
  });

  it('fits what it is given, one point alone too', () => {
    const view = fitted({ low_m: [-30, -5], high_m: [30, 5] }, SIZE);
    for (const corner of [
      [-30, -5],
      [30, 5],
    ] as const) {
      const [x, y] = onScreen(view, SIZE, corner);
      expect(x).toBeGreaterThan(40);
      expect(x).toBeLessThan(760);
      expect(y).toBeGreaterThan(40);
      expect(y).toBeLessThan(560);
    }
    expect(fitted({ low_m: [3, 3], high_m: [3, 3] }, SIZE).scale_px_m).toBeLessThan(200);
  });
});

describe('the grid', () => {
  it('is as fine as its labels have room, in the units of the tape', () => {
    // Derived: 1 m is 50 px, too little; 2 m is 100.
    expect(gridSpacing(50, 'metric')).toEqual({ major_m: 2, minor_m: 0.5 });
    expect(gridSpacing(700, 'metric').major_m).toBe(0.1);
    expect(gridSpacing(50, 'imperial').major_m).toBeCloseTo(5 * 0.3048, 12);
    expect(gridSpacing(1e-3, 'metric').major_m).toBe(200);
  });

  it('divides its strong lines evenly', () => {
    for (const lengths of ['metric', 'imperial'] as const)
      for (let scale = 0.5; scale < 1000; scale *= 1.3) {
        const { major_m, minor_m } = gridSpacing(scale, lengths);
        expect(Math.abs(major_m / minor_m - Math.round(major_m / minor_m))).toBeLessThan(1e-9);
      }
  });

  it('names every multiple between two places, and nought as nought', () => {
    expect(gridLines(-1.1, 1, 0.5)).toEqual([-1, -0.5, 0, 0.5, 1]);
    expect(Object.is(gridLines(-1, 1, 1)[1], 0)).toBe(true);
    expect(gridLines(0.1, 0.4, 1)).toEqual([]);
  });
});

describe('names of signs', () => {
  const named = (id: string, x: number, y: number, always = false) => ({
    id,
    at_px: [x, y] as const,
    name: 'Ten letters',
    always,
  });

  it('stand on the right, else on the left, else nowhere; what is chosen has its name in any case', () => {
    const signs = [
      [0, 0],
      [60, 0],
      [0, 100],
    ] as const;
    expect(nameSides([named('a', 0, 0), named('c', 0, 100)], signs)).toEqual(
      new Map([
        ['a', 'left'],
        ['c', 'right'],
      ]),
    );
    const hemmed = [
      [-60, 0],
      [0, 0],
      [60, 0],
    ] as const;
    expect(nameSides([named('a', 0, 0)], hemmed).get('a')).toBe('none');
    expect(nameSides([named('a', 0, 0, true)], hemmed).get('a')).toBe('right');
  });
});
