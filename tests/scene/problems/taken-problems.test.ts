import { describe, expect, it } from 'vitest';
import { linesOf } from '../../support/scenes.ts';

describe('what a reading remembers of its lamps', () => {
  const rows: readonly (readonly [path: string, value: unknown, line: string])[] = [
    [
      'readings.0.taken.1.lamp',
      'strip',
      'readings[0].taken[1].lamp (r1): found "strip"; expected a lamp that the reading was taken with, one of its "lamps"',
    ],
    [
      'readings.0.taken.1.lamp',
      'kay',
      'readings[0].taken[1].lamp (r1): found "kay"; expected the name of a lamp; did you mean "key"?',
    ],
    [
      'readings.0.taken.1.lamp',
      'back',
      'readings[0].taken[1].lamp (r1): found "back" again; expected each lamp once',
    ],
    [
      'readings.0.taken.0.filters.1',
      'frist',
      'readings[0].taken[0].filters[1] (r1): found "frist"; expected the name of a filter; did you mean "frost"?',
    ],
    [
      'readings.0.taken.0.aim_m',
      [18, 3, 1],
      'readings[0].taken[0].aim_m (r1): found [18,3,1], where the lamp then stood and was aimed at; expected an aim point away from the lamp itself',
    ],
    [
      'readings.0.taken.1.position_m',
      [-2, 1.5, 1],
      'readings[0].taken[1].position_m (r1): found [-2,1.5,1], where the lamp then stood and was aimed at; expected an aim point away from the lamp itself',
    ],
    [
      'readings.0.taken.1.level',
      60,
      'readings[0].taken[1].level (r1): found 60; expected at most 1 (60 % is 0.6)',
    ],
    [
      'readings.0.taken.1.levl',
      1,
      'readings[0].taken[1].levl (r1): found an unknown field "levl"; expected only lamp, position_m, aim_m, roll_deg, level, filters; did you mean "level"?',
    ],
  ];

  it.each(rows)('%s: %j', (path, value, line) => expect(linesOf({ [path]: value })).toEqual([line]));

  it('names the nearest of the lamps that the reading was taken with', () => {
    expect(linesOf({ 'lamps.3.id': 'kex', 'readings.0.taken.1.lamp': 'kex' })[0]).toMatch(
      /did you mean "key"/,
    );
  });
});
