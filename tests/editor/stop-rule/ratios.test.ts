import { describe, expect, it } from 'vitest';
import { ratiosAt } from '../../../src/editor/stop-rule/ratios.ts';
import {
  colourWords,
  needleWords,
  ratioWords,
  stopsWords,
  withoutWords,
  zeroWords,
} from '../../../src/editor/stop-rule/reading-words.ts';
import type { SceneDocument } from '../../../src/scene/schema/document.ts';
import { EXPOSURE, markOf, readingAt, reportOf } from './support/readings.ts';

const face = markOf('face', { rim: 3, key: 125, fill: 50 });
const rim = markOf('rim-mark', { rim: 137, key: 2 }, { facing: 'lamp:rim' });
const report = reportOf([face, rim]);
const document: SceneDocument = {
  keyfall: 1,
  title: 'Marks',
  marks: [
    { id: 'face', position_m: [0, 1.6, 0] },
    { id: 'rim-mark', position_m: [0.2, 1.6, -0.2], facing: 'lamp:rim' },
  ],
};

describe('ratios at a face', () => {
  it('takes the strongest lamp for the key, the next for the fill, and the rim by the mark beside that faces it', () => {
    const ratios = ratiosAt(report, document, face);
    expect(ratios.roles).toEqual({ key: 'key', fill: 'fill', rim: 'rim' });
    // derived: (125 + 50)/50, and 137/125.
    expect(ratios.keyToFill).toBeCloseTo(3.5, 12);
    expect(ratios.rimToKey).toBeCloseTo(1.096, 12);
  });

  it('goes by what was said, as long as that lamp is on', () => {
    expect(ratiosAt(report, document, face, { key: 'fill', fill: 'key' }).keyToFill).toBeCloseTo(1.4, 12);
    expect(ratiosAt(report, document, face, { fill: null }).keyToFill).toBeNull();
    expect(ratiosAt(report, document, face, { key: 'switched-off' }).roles.key).toBe('key');
    expect(ratiosAt(report, document, face, { key: 'fill' }).roles.fill).toBe('key');
  });

  it('has no rim where no mark beside faces a lamp, and guesses nothing where the meter is not held to the camera', () => {
    const far = {
      ...document,
      marks: [
        document.marks![0]!,
        { ...document.marks![1]!, position_m: [3, 1.6, 0] as [number, number, number] },
      ],
    };
    expect(ratiosAt(report, far, face)).toMatchObject({ rimToKey: null, rims: [] });
    expect(ratiosAt(report, document, rim).roles).toEqual({ key: null, fill: null, rim: null });
  });

  it('has none of darkness, nor of a lamp with itself', () => {
    const dark = markOf('face', { key: 0, fill: 0 });
    expect(ratiosAt(reportOf([dark]), document, dark)).toMatchObject({ keyToFill: null, rimToKey: null });
    expect(ratiosAt(report, document, face, { key: 'key', fill: 'key' }).keyToFill).toBeNull();
  });
});

describe('words of the stop rule', () => {
  it('say stops in thirds', () => {
    expect([1, -1 / 3, 0, 1.4, Number.NEGATIVE_INFINITY].map(stopsWords)).toEqual([
      '+1 stop',
      '\u22120⅓ stop',
      '0 stops',
      '+1⅓ stops',
      '\u2212∞ stops',
    ]);
    expect(ratioWords(3.5)).toBe('3.5 : 1, +1⅔ stops');
    expect(ratioWords(136)).toBe('140 : 1, +7 stops');
  });

  it('say colour as the camera sees it', () => {
    // derived: 10⁶/4000 − 10⁶/4300 = 17 mired; 10⁶/3200 − 10⁶/4300 = 80; 10⁶/10 000 − 10⁶/4300 = −133.
    expect(colourWords(4012, 4300)).toBe("4000 K, neutral at the camera's 4300 K");
    expect(colourWords(3200, 4300)).toBe("3200 K, clearly warmer than the camera's 4300 K");
    expect(colourWords(10_000, 4300)).toBe("10000 K, strongly cooler than the camera's 4300 K");
  });

  it('say a needle for ears, and darkness', () => {
    const needle = { mixed: readingAt('Ada', 0), number: 3, form: 'names' } as const;
    expect(needleWords(needle, 'lx')).toBe('3 Ada 0 250 lx, ±0.5 stops');
    expect(needleWords({ ...needle, form: 'numbers' }, 'lx')).toBe('3 0 Ada, 250 lx, ±0.5 stops');
    const dark = {
      ...needle.mixed,
      illuminance_lx: 0,
      stops: Number.NEGATIVE_INFINITY,
      plusMinus_stops: null,
    };
    expect(needleWords({ ...needle, mixed: dark }, 'lx')).toBe('3 Ada \u2212∞ 0 lx');
    expect(zeroWords(EXPOSURE, 'lx')).toBe('0 is 330 lx on the dome (C 330), 250 lx flat (C 250)');
  });

  it('say plainly which lamps are out', () => {
    const lamps = (...out: boolean[]) => out.map((is, i) => ({ name: 'ABCDEF'[i]!, out: is }));
    expect(withoutWords(lamps(false, false))).toBe('');
    expect(withoutWords(lamps(true, false, false))).toBe('Without A');
    expect(withoutWords(lamps(true, true, false))).toBe('C alone, with the sky');
    expect(withoutWords(lamps(true, true))).toBe('Without any lamp: sky alone');
    expect(withoutWords(lamps(true, true, true, true, false, false))).toBe('Without 4 of 6 lamps');
  });
});
