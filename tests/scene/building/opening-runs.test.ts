import { describe, expect, it } from 'vitest';
import type { Side } from '../../../src/core/geometry/vehicle-spec.ts';
import {
  asFarAsFits,
  draggedRun,
  newRun,
  runFits,
  runPatch,
  seenWall,
  type WindowRun,
  withoutRun,
  withRun,
} from '../../../src/scene/building/opening-runs.ts';
import type { VehicleSolid } from '../../../src/scene/schema/solid.ts';

const BUS: VehicleSolid = {
  id: 'bus',
  shape: 'vehicle',
  position_m: [0, 0, 0],
  material: 'gloss-red',
  size_m: [10, 3, 2.5],
  wall_m: 0.05,
  roofRadius_m: 0.3,
  windows: [
    {
      side: 'right',
      count: 3,
      first_m: 2,
      pitch_m: 2,
      width_m: 1,
      head_m: 2,
      sill_m: 1,
      pane: 'clear-glass',
    },
  ],
  doors: [{ side: 'right', count: 1, first_m: 0.5, width_m: 1, head_m: 2 }],
};
const WINDOWS = { kind: 'windows', index: 0 } as const;
const row = BUS.windows![0]!;

describe('a wall as it is seen from outside', () => {
  it('has the bow on the right of the right side, and so its first window', () => {
    const { sense, openings, span_m } = seenWall(BUS, 'right');
    expect([span_m, sense]).toEqual([10, -1]);
    // Derived: the front end is at +5 m; 2 m from it the near edge, 1 m on the far one.
    expect(openings[0]).toMatchObject({
      kind: 'windows',
      index: 0,
      nth: 0,
      left_m: 2,
      right_m: 3,
      bottom_m: 1,
      top_m: 2,
    });
    expect(openings[2]).toMatchObject({ nth: 2, left_m: -2, right_m: -1 });
  });

  it('shows closed doors too', () => {
    expect(seenWall(BUS, 'right').openings[3]).toMatchObject({
      kind: 'doors',
      index: 0,
      nth: 0,
      left_m: 3.5,
      right_m: 4.5,
    });
  });

  it('on the left has the bow on the left', () => {
    const { sense, openings } = seenWall({ ...BUS, windows: [{ ...row, side: 'left' }] }, 'left');
    expect(sense).toBe(1);
    expect(openings[0]).toMatchObject({ left_m: -3, right_m: -2 });
  });

  it('is round above at the ends', () => {
    expect(seenWall(BUS, 'front').cornerRadius_m).toBe(0.3);
    expect(seenWall(BUS, 'right').cornerRadius_m).toBe(0);
  });
});

describe('a dragged row', () => {
  it('moves with the hand, on either side', () => {
    expect(draggedRun(row, 'whole', 0, -1, 0.5, 0.1)).toEqual({ first_m: 1.5, sill_m: 1.1, head_m: 2.1 });
    expect(draggedRun(row, 'whole', 0, 1, 0.5, 0)).toEqual({ first_m: 2.5, sill_m: 1, head_m: 2 });
    expect(draggedRun(BUS.doors![0]!, 'whole', 0, 1, 0.5, 0.4)).toEqual({ first_m: 1 });
  });

  it('is sized by its knobs, and spaced by a later one of it', () => {
    expect(draggedRun(row, 'head', 0, -1, 9, 0.2)).toEqual({ head_m: 2.2 });
    expect(draggedRun(row, 'sill', 0, -1, 9, -0.2)).toEqual({ sill_m: 0.8 });
    expect(draggedRun(row, 'width', 0, -1, -0.3, 9)).toEqual({ width_m: 1.3 });
    expect(draggedRun(row, 'pitch', 2, -1, -0.6, 0)).toEqual({ pitch_m: 2.3 });
  });

  it('stops at the end of its wall', () => {
    const patch = { first_m: 9, sill_m: 1, head_m: 2 };
    expect(runFits(BUS, WINDOWS, patch)).toBe(false);
    // Derived: three windows take 5 m, the wall ends at 10 − 0.05.
    expect(asFarAsFits(BUS, WINDOWS, patch).first_m).toBeCloseTo(4.95, 2);
    expect(asFarAsFits(BUS, WINDOWS, { head_m: 5 }).head_m).toBeCloseTo(2.7, 2);
    expect(asFarAsFits(BUS, WINDOWS, { head_m: 2.5 })).toEqual({ head_m: 2.5 });
  });
});

describe('rows', () => {
  it('are changed, added and taken out, and others left alone', () => {
    expect(runPatch(BUS, WINDOWS, { count: 2 }).windows).toEqual([{ ...row, count: 2 }]);
    expect(
      runPatch(BUS, WINDOWS, { pane: undefined } as unknown as WindowRun).windows![0],
    ).not.toHaveProperty('pane');
    expect(withoutRun(BUS, WINDOWS)).toEqual({ windows: null });
    expect(withRun(BUS, 'doors', BUS.doors![0]!).doors).toHaveLength(2);
  });

  it('that are new fit beside those that are there', () => {
    for (const side of ['right', 'left', 'front', 'back'] as Side[])
      for (const kind of ['windows', 'doors'] as const) {
        const run = newRun(BUS, kind, side, 'clear-glass')!;
        expect(run.side).toBe(side);
        expect(
          seenWall({ ...BUS, ...withRun(BUS, kind, run) } as VehicleSolid, side).openings.length,
        ).toBeGreaterThan(0);
      }
    expect(newRun(BUS, 'windows', 'left', 'clear-glass')).toMatchObject({
      count: 5,
      width_m: 1.2,
      pane: 'clear-glass',
    });
  });

  it('find no room in a wall that is full or too low', () => {
    const full = {
      ...BUS,
      windows: [{ side: 'left', count: 1, first_m: 0.06, width_m: 9.88, head_m: 2.6, sill_m: 0.05 }],
    };
    expect(newRun(full as VehicleSolid, 'windows', 'left', 'clear-glass')).toBeNull();
    expect(newRun({ ...BUS, size_m: [10, 0.3, 2.5] } as VehicleSolid, 'doors', 'left', '')).toBeNull();
  });
});
