import { describe, expect, it } from 'vitest';
import { linesOf } from '../../support/scenes.ts';

describe('shapes whose figures do not go together', () => {
  const boat = 'solids.6.windows.0';
  const rows: readonly (readonly [path: string, value: unknown, line: string])[] = [
    [
      'solids.3.length_m',
      0.5,
      'solids[3].length_m (buoy): found 0.5; expected at least twice the radius, 0.8 (the length is over all)',
    ],
    [
      'solids.4.openings.0.left_m',
      7,
      'solids[4].openings[0] (wall): found an opening that reaches past the panel of 8 × 4 m; expected one that lies within it, measured from its lower left corner',
    ],
    [
      'solids.4.openings.0.height_m',
      3.5,
      'solids[4].openings[0] (wall): found an opening that reaches past the panel of 8 × 4 m; expected one that lies within it, measured from its lower left corner',
    ],
    [
      `${boat}.head_m`,
      1,
      'solids[6].windows[0].head_m (boat): found 1; expected above the lower edge, at 1.3 m',
    ],
    [
      `${boat}.first_m`,
      20,
      "solids[6].windows[0].first_m (boat): found 20; expected room for all (this puts the last one's far edge at 38.9 m: the right wall has room to 23.94 m)",
    ],
    [
      `${boat}.pitch_m`,
      0.1,
      'solids[6].windows[0].pitch_m (boat): found 0.1; expected at least the width, 1.4 m, or they overlap',
    ],
    [
      'solids.6.wall_m',
      3,
      'solids[6].wall_m (boat): found 3; expected above 0 and under 1.6 m, to leave room inside',
    ],
  ];
  it.each(rows)('%s = %j', (path, value, line) => {
    // The setup that changes the boat's windows would repeat what is wrong with the boat itself.
    expect(linesOf({ [path]: value, 'setups.1.changes': {} })).toEqual([line]);
  });

  it('two rows of windows in one place', () => {
    const run = { side: 'right', count: 1, first_m: 2.5, width_m: 1, head_m: 2, sill_m: 1.5 };
    expect(linesOf({ 'solids.6.windows.4': run, 'setups.1.changes': {} })).toEqual([
      'solids[6].windows[4] (boat): found openings that do not fit; expected room for all (this overlaps windows[0] ' +
        'on the right wall: move one along the wall, or make it narrower or lower)',
    ]);
  });

  it('a default that does not fit is told as one', () => {
    // A roof edge of 0.3 m is rounded where none is given; a cart 0.5 m wide has room for 0.25.
    const cart = {
      id: 'cart',
      shape: 'vehicle',
      position_m: [0, 0, 0],
      material: 'asphalt',
      size_m: [1, 1, 0.5],
    };
    expect(linesOf({ 'solids.8': cart })).toEqual([
      'solids[8].roofRadius_m (cart): found 0.3 (as none is given); expected from 0 to 0.25 m, half the width and under the height',
    ]);
  });

  it('more openings than can be checked against each other', () => {
    const runs = Array.from({ length: 50 }, (_, i) => ({
      side: 'right',
      count: 500,
      first_m: 0.1,
      pitch_m: 0.02,
      width_m: 0.01,
      sill_m: 0.02 * i,
      head_m: 0.02 * i + 0.01,
    }));
    expect(linesOf({ 'solids.6.windows': runs, 'solids.6.doors': [], 'setups.1.changes': {} })).toEqual([
      'solids[6] (boat): found 25000 windows and doors; expected at most 2000',
    ]);
  });
});
