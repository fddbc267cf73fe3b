import { describe, expect, it } from 'vitest';
import { type MeterEntry, meteredOf, readingCommand } from '../../../src/editor/answers/meter-entry.ts';
import { applyCommand } from '../../../src/scene/commands/apply-command.ts';
import type { SceneDocument } from '../../../src/scene/schema/document.ts';
import { applySetup } from '../../../src/scene/setups/apply-setup.ts';
import { smallScene } from '../../support/scenes.ts';
import { EXPOSURE_STOPS } from '../../tolerances.ts';

const ENTRY: MeterEntry = {
  mark: 'face',
  lamps: ['key'],
  receptor: 'flat',
  shows: 'light',
  light: '',
  unit: 'lx',
  fNumber: '',
  tenths: 0,
  shutter: '1/50',
  iso: '800',
};

function lux(entry: Partial<MeterEntry>, document: SceneDocument = smallScene()): number | undefined {
  return meteredOf({ ...ENTRY, ...entry }, document).illuminance_lx;
}

describe('what a meter showed', () => {
  it.each([
    ['137', 'lx', 137],
    ['13,7', 'lx', 13.7],
    // derived: 1 fc = 10.7639 lx
    ['10', 'fc', 107.639],
    ['10 fc', 'lx', 107.639],
    ['137 lx', 'fc', 137],
  ] as const)('%s with %s chosen', (light, unit, expected) => {
    expect(lux({ light, unit })).toBeCloseTo(expected, 2);
  });

  // derived: E = C·N²/(t·S) (ISO 2720): 250·16·50/800 = 250 lx flat, 330·16·50/800 = 330 lx dome
  it.each([
    [{ fNumber: 'f/4' }, 250],
    [{ fNumber: '4', receptor: 'dome' }, 330],
    [{ fNumber: '4', tenths: 5 }, 250 * Math.SQRT2],
    [{ fNumber: '8', shutter: '1/200', iso: '800' }, 4000],
    [{ fNumber: '4', iso: '1600' }, 125],
  ] as const)('an f-number: %o', (entry, expected) => {
    const found = lux({ shows: 'f-number', ...entry })!;
    expect(Math.abs(Math.log2(found / expected))).toBeLessThan(EXPOSURE_STOPS);
  });

  it('takes the constants of the scene', () => {
    const own = { ...smallScene(), calibration: { flat: 320 } };
    expect(lux({ shows: 'f-number', fNumber: '4' }, own)).toBeCloseTo(320, 6);
  });

  it.each([
    [{ light: 'bright' }, /figure such as/],
    [{ light: '-3' }, /figure such as/],
    [{ light: '0' }, /meter nearer/],
    [{ light: '1e9' }, /./],
    [{ light: '99999999' }, /More light/],
    [{ shows: 'f-number', fNumber: 'x' }, /f-number such as/],
    [{ shows: 'f-number', fNumber: '4', shutter: '50' }, /shutter such as/],
    [{ shows: 'f-number', fNumber: '4', iso: '' }, /ISO/],
  ] as const)('refuses %o in words', (entry, words) => {
    const metered = meteredOf({ ...ENTRY, ...entry } as MeterEntry, smallScene());
    expect(metered.illuminance_lx).toBeUndefined();
    expect(metered.wrong).toMatch(words);
  });

  it('says nothing while nothing has been typed', () => {
    expect(meteredOf(ENTRY, smallScene())).toEqual({ wrong: '' });
  });
});

describe('taking a reading down', () => {
  it('adds one that the scene accepts, with an id of its own', () => {
    let document: SceneDocument = smallScene();
    for (const light of [200, 210])
      document = applyCommand(document, readingCommand(document, document, ENTRY, light)).document!;
    expect(document.readings).toEqual([
      { id: 'reading-1', mark: 'face', lamps: ['key'], receptor: 'flat', illuminance_lx: 200 },
      { id: 'reading-2', mark: 'face', lamps: ['key'], receptor: 'flat', illuminance_lx: 210 },
    ]);
  });

  it('remembers how a lamp stood in the setup that was shown', () => {
    const setup = { id: '1', changes: { key: { position_m: [0, 1, 5], level: 0.5 } } };
    const base: SceneDocument = { ...smallScene(), setups: [setup] };
    const shown = applySetup(base, base.setups![0]!);
    const { document } = applyCommand(base, readingCommand(base, shown, ENTRY, 100));
    expect(document!.readings![0]!.taken).toEqual([{ lamp: 'key', position_m: [0, 1, 5], level: 0.5 }]);
  });
});
