import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { mixedReading, SKY } from '../../../src/editor/stop-rule/mixed-reading.ts';
import { compileScene } from '../../../src/scene/compile/compile-scene.ts';
import { openScene } from '../../../src/scene/file/open-scene.ts';
import { meterScene } from '../../../src/scene/meter/meter-scene.ts';
import type { SceneDocument } from '../../../src/scene/schema/document.ts';
import { SCENES } from '../../support/command-line.ts';
import { EXPOSURE, markOf } from './support/readings.ts';

const demo = openScene(readFileSync(join(SCENES, 'night-quay.json'), 'utf8')).document!;
const NO_FILES = { photometry: new Map(), meshes: new Map() };

function metered(document: SceneDocument) {
  return meterScene(document, compileScene(document, NO_FILES), { light: 'direct', error_stops: 0.002 });
}

describe('a reading mixed anew', () => {
  it('is what the meter reads with those lamps switched off', () => {
    const muted = new Set(['back', 'fill']);
    const lamps = demo.lamps!.map((lamp) => (muted.has(lamp.id) ? { ...lamp, on: false } : lamp));
    const off = metered({ ...demo, lamps });
    const all = metered(demo);
    for (const [i, mark] of all.marks.entries()) {
      const mixed = mixedReading(mark, all.exposure, muted);
      expect(mixed.stops).toBeCloseTo(off.marks[i]!.stops, 1);
      expect(mixed.fNumber / off.marks[i]!.fNumber).toBeCloseTo(1, 2);
    }
  });

  it('is the report, digit for digit, with no lamp out, and says nothing of ± and colour with one out', () => {
    const mark = markOf('face', { key: 200, fill: 50 }, { sky_lx: 0.1 });
    const whole = mixedReading(mark, EXPOSURE, new Set(['of another scene']));
    expect(whole).toMatchObject({ illuminance_lx: mark.illuminance_lx, stops: mark.stops, cct_K: 4000 });
    expect(whole.plusMinus_stops).toBeCloseTo(Math.hypot(0.03, 0.4), 12);
    const part = mixedReading(mark, EXPOSURE, new Set(['key']));
    expect(part).toMatchObject({ plusMinus_stops: null, cct_K: null });
    // derived: 50.1 of 250 lx.
    expect(part.stops).toBeCloseTo(Math.log2(50.1 / 250), 9);
  });

  it('has parts that add up to one, the sky last', () => {
    const { parts } = mixedReading(
      markOf('face', { key: 90, none: 0, fill: 9 }, { sky_lx: 1 }),
      EXPOSURE,
      new Set(),
    );
    expect(parts.map(({ of }) => of)).toEqual(['key', 'fill', SKY]);
    expect(parts.map(({ share }) => share)).toEqual([0.9, 0.09, 0.01]);
  });

  it('of darkness is no light, not an error', () => {
    const mixed = mixedReading(markOf('face', { key: 100 }), EXPOSURE, new Set(['key']));
    expect(mixed).toMatchObject({ illuminance_lx: 0, stops: Number.NEGATIVE_INFINITY, parts: [] });
  });
});
