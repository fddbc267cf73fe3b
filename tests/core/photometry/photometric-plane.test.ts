import { describe, expect, it } from 'vitest';
import {
  closedCircle,
  gapWarning,
  mirrored,
  type PhotometricPlane,
} from '../../../src/core/photometry/photometric-plane.ts';

function planes(...angles: number[]): PhotometricPlane[] {
  return angles.map((horizontal_deg) => ({ horizontal_deg, candela: Float64Array.of(horizontal_deg) }));
}

function summary(result: readonly PhotometricPlane[]): [number, number][] {
  return result.map((plane) => [plane.horizontal_deg, plane.candela[0]!]);
}

describe('mirrored', () => {
  it('adds the image of every plane but the one on the mirror', () => {
    expect(summary(mirrored(planes(0, 30, 90), 90))).toEqual([
      [0, 0],
      [30, 30],
      [90, 90],
      [150, 30],
      [180, 0],
    ]);
    expect(summary(mirrored(planes(0, 45), 0))).toEqual([
      [-45, 45],
      [0, 0],
      [45, 45],
    ]);
  });
});

describe('closedCircle', () => {
  it('repeats the plane at 0 at 360', () => {
    expect(summary(closedCircle(planes(0, 120, 240)))).toEqual([
      [0, 0],
      [120, 120],
      [240, 240],
      [360, 0],
    ]);
    expect(summary(closedCircle(planes(0, 120, 360)))).toEqual([
      [0, 0],
      [120, 120],
      [360, 360],
    ]);
  });

  it('brings angles outside the turn back and drops repeated planes', () => {
    expect(summary(closedCircle(planes(-90, 0, 90, 270)))).toEqual([
      [0, 0],
      [90, 90],
      [270, -90],
      [360, 0],
    ]);
  });

  it('interpolates the plane at 0 between its neighbours', () => {
    // derived: 0 lies 10° after 350 and 30° before 30: (350 · 30 + 30 · 10)/40 = 270.
    const seam = summary(closedCircle(planes(30, 180, 350)));
    expect(seam[0]).toEqual([0, 270]);
    expect(seam[seam.length - 1]).toEqual([360, 270]);
  });
});

describe('gapWarning', () => {
  it('speaks only of a gap wider than two steps', () => {
    expect(gapWarning(planes(0, 15, 345))).toEqual([]);
    expect(gapWarning(planes(0, 15, 330))).toEqual([]);
    expect(gapWarning(planes(0, 15, 300))).toHaveLength(1);
  });
});
