import { describe, expect, it } from 'vitest';
import { buildUp } from '../../../src/editor/setups/build-up.ts';
import { aloneWords, soFarWords } from '../../../src/editor/setups/build-up-words.ts';
import type { MeterReport } from '../../../src/scene/meter/meter-scene.ts';
import { EXPOSURE, markOf } from '../stop-rule/support/readings.ts';

const reportOf = (...marks: MeterReport['marks']): MeterReport => ({
  keyfall: 1,
  title: 'Test',
  setup: null,
  camera: 'a',
  exposure: EXPOSURE,
  covers: { direct: true, sky: true, bounce: true, haze: true },
  marks,
});
const report = reportOf(
  markOf('face', { rim: 10, key: 200, fill: 40 }, { sky_lx: 0.5 }),
  markOf('back', { rim: 300, key: 1, fill: 1 }),
);
const LAMPS = ['rim', 'key', 'fill'];

describe('the light built up lamp by lamp', () => {
  it('begins with the sky and goes on with the brightest at the mark', () => {
    expect(buildUp(report, 'face', LAMPS).map(({ lamp }) => lamp)).toEqual([null, 'key', 'fill', 'rim']);
    expect(buildUp(report, 'back', LAMPS).map(({ lamp }) => lamp)).toEqual([null, 'rim', 'key', 'fill']);
  });

  it('adds: each step is the one before and the lamp alone, the last one the whole reading with its ±', () => {
    const steps = buildUp(report, 'face', LAMPS);
    // derived: sums of 0.5 + 200 + 40 + 10 lx.
    expect(steps.map(({ soFar }) => soFar?.illuminance_lx)).toEqual([0.5, 200.5, 240.5, 250.5]);
    expect(steps.map(({ alone }) => alone?.illuminance_lx)).toEqual([0.5, 200, 40, 10]);
    expect(steps.map(({ soFar }) => soFar?.plusMinus_stops !== null)).toEqual([false, false, false, true]);
    expect(steps.at(-1)?.soFar?.stops).toBe(report.marks[0]!.stops);
  });

  it('follows the scene where there is no mark to go by', () => {
    for (const none of [buildUp(null, undefined, LAMPS), buildUp(report, 'gone', LAMPS)]) {
      expect(none.map(({ lamp }) => lamp)).toEqual([null, ...LAMPS]);
      expect(none.every(({ alone, soFar }) => alone === null && soFar === null)).toBe(true);
    }
  });

  it('takes a lamp that the readings do not know yet as giving nothing', () => {
    const [last] = buildUp(report, 'face', [...LAMPS, 'new']).slice(-1);
    expect(last).toMatchObject({ lamp: 'new', alone: { illuminance_lx: 0 } });
    expect(aloneWords(last!.alone!, 'lx')).toBe('no light');
  });

  it('says stops, ± where it is known, and the illuminance in the unit of the page', () => {
    const [, key, , all] = buildUp(report, 'face', LAMPS);
    // derived: 200 of 250 lx are −0.32 stops; 200 lx are 18.6 fc.
    expect(aloneWords(key!.alone!, 'lx')).toBe('−0⅓ stop, 200 lx');
    expect(aloneWords(key!.alone!, 'fc')).toBe('−0⅓ stop, 18.6 fc');
    expect(soFarWords(all!.soFar!, 'lx')).toMatch(/^0 stops ±\d\.\d, 251 lx$/);
  });
});
