import { describe, expect, it } from 'vitest';
import { glintRunSheet } from '../../src/paperwork/glint-run-sheet.ts';
import type { GlintRun, GlintsAlongPath } from '../../src/scene/mirror/along-path.ts';

function run(from_m: number, to_m: number, more: Partial<GlintRun> = {}): GlintRun {
  return {
    lamp: 'back',
    solid: 'boat',
    from_s: from_m / 2,
    to_s: to_m / 2,
    from_m,
    to_m,
    fromPosition_m: [from_m, 1.5, 3],
    toPosition_m: [to_m, 1.5, 3],
    image: null,
    peak_stops: 14.53,
    ...more,
  };
}

function sheet(runs: readonly GlintRun[]) {
  const along: GlintsAlongPath = {
    path: 'dolly',
    name: 'Dolly',
    moves: { kind: 'camera', id: 'a' },
    camera: 'a',
    from_s: 0,
    to_s: 3,
    length_m: 6,
    runs,
  };
  return glintRunSheet(along, (id) => ({ back: 'Backlight', boat: 'Boat', a: 'A' })[id] ?? id);
}

describe('glints along a move, in words', () => {
  it('are marks on a tape, in both units', () => {
    const image = { from_m: 2, to_m: 3.5, from_s: 1, to_s: 1.75 };
    const { heading, verdict, lines } = sheet([run(1.5, 4, { image })]);
    expect(heading).toBe('Dolly: camera A, 6 m from 0 s to 3 s, as camera a sees it');
    expect(verdict).toBe('Lamps mirror white in frame on 2.5 m of it.');
    // Derived: 1.5 m = 4 ft 11 in, 4 m = 13 ft 1½ in, to the half inch.
    expect(lines).toEqual([
      'Backlight in Boat: white from 1.5 m (4 ft 11 in) to 4 m (13 ft 1½ in), 0.75 s to 2 s; ' +
        'the middle of the lamp shows from 2 m to 3.5 m; +14.5 stops at most.',
    ]);
  });

  it('count what two glints share once', () => {
    expect(sheet([run(1, 3), run(2, 4), run(5, 5.5)]).verdict).toBe(
      'Lamps mirror white in frame on 3.5 m of it.',
    );
  });

  it('may be all the way, or a fringe only, or none', () => {
    expect(sheet([run(0, 6)]).lines).toEqual([
      'Backlight in Boat: white all the way; the middle of the lamp never shows; +14.5 stops at most.',
    ]);
    expect(sheet([]).verdict).toBe('No lamp mirrors white in frame anywhere along this move.');
  });
});
