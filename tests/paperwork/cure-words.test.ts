import { describe, expect, it } from 'vitest';
import { cureWords } from '../../src/paperwork/cure-words.ts';
import type { Burning, Cure } from '../../src/scene/mirror/cures/cures.ts';

const GLINT: Burning = { lamp: 'back', solid: 'boat', part: 3, side: 'right side', stops: 14.5 };
const NAMES: Readonly<Record<string, string>> = { back: 'Backlight', boat: 'Boat', tender: 'Tender' };

function cure(more: Partial<Cure>): Cure {
  const change = { mark: 'ada', name: 'Ada, rim', change_stops: more.cost_stops ?? 0 };
  return {
    change: 'lamp-up',
    by_m: 0.5,
    until_m: 1.3,
    reach_m: 1.3,
    to_m: [25, 3.5, 2],
    height_m: 3.5,
    cost_stops: 0.1,
    cost: { worst: change, brightest: change },
    leaves: [],
    appears: [],
    ...more,
  };
}

function words(cures: readonly Cure[], partial: readonly Cure[] = []) {
  const pair = { lamp: 'back', solid: 'boat', glint: GLINT, cures, partial };
  return cureWords(pair, (id) => NAMES[id] ?? id);
}

describe('cures in words', () => {
  it('are what a crew would do, with what each costs', () => {
    expect(
      words([
        cure({}),
        cure({ change: 'lamp-back', by_m: 3, until_m: 15, reach_m: 15, cost_stops: -0.33 }),
        cure({ change: 'camera-left', by_m: 1.2, until_m: 4, reach_m: 4, cost_stops: 0, cost: null }),
      ]),
    ).toEqual([
      'Clear if: stand up 0.5 m, to 3.5 m (+0.1 stop at Ada, rim); 3 m further back (−0.3 stop at Ada, rim); ' +
        'camera left 1.2 m (another picture, same light).',
    ]);
  });

  it('are taped to the next decimetre that does, never past where it ends', () => {
    expect(words([cure({ by_m: 0.51, height_m: 3.51, cost_stops: 0.01 })])).toEqual([
      'Clear if: stand up 0.6 m, to 3.6 m (no light lost).',
    ]);
    expect(
      words([cure({ change: 'lamp-down', by_m: 0.51, height_m: 2.49, until_m: 1, reach_m: 2.8 })]),
    ).toEqual(['Clear if: stand down 0.6 m, to 2.4 m, not below 2 m (+0.1 stop at Ada, rim).']);
    expect(
      words([cure({ by_m: 0.51, height_m: 3.51, until_m: 0.55, cost_stops: null, cost: null })]),
    ).toEqual(['Clear if: stand up 0.55 m, to 3.55 m, not above 3.55 m (no marks to cost it at).']);
    expect(
      words([cure({ change: 'lamp-back', by_m: 1.7, until_m: 2.66, reach_m: 15, cost_stops: -2 })]),
    ).toEqual(['Clear if: 1.7 m further back, not past 2.66 m (−2.0 stops at Ada, rim).']);
  });

  it('say what else then burns, and prefer what makes nothing burn', () => {
    const trade = cure({ change: 'lamp-in', appears: [{ ...GLINT, solid: 'tender' }] });
    expect(words([trade])).toEqual([
      'Clear if: 0.5 m in toward the side (+0.1 stop at Ada, rim), but then Backlight mirrors in Tender.',
    ]);
    expect(words([cure({}), trade])).toEqual(['Clear if: stand up 0.5 m, to 3.5 m (+0.1 stop at Ada, rim).']);
  });

  it('say when there is none, and when another part of the solid goes on', () => {
    const leaves = [{ ...GLINT, side: 'right roof edge', stops: 12.04 }];
    expect(words([], [cure({ cost_stops: 0, leaves })])).toEqual([
      'No single move within reach clears it: flag it, change the frame or move two things.',
      'Off this surface only: stand up 0.5 m, to 3.5 m (no light lost), but then its right roof edge carries +12.0 stops.',
    ]);
    expect(words([], [cure({ cost_stops: 0, leaves: [{ ...GLINT, stops: 12.04 }] })])[1]).toContain(
      'but then another part of it carries +12.0 stops.',
    );
  });
});
