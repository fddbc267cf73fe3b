import { describe, expect, it } from 'vitest';
import { readingConventions, setupReadings } from '../../../src/editor/setups/setup-readings.ts';
import { newSmallFrameDesk } from '../../../src/editor/setups/small-frame-desk.ts';
import { changesSince } from '../../../src/editor/worker/document-changes.ts';
import type { MeterReport } from '../../../src/scene/meter/meter-scene.ts';
import { readingLines } from '../../browser/support/command-line.ts';
import { keyfall, SCENES } from '../../support/command-line.ts';
import { demo } from './support.ts';

describe('the readings of a setup', () => {
  it('are those of the command line, to the digit', { timeout: 60_000 }, async () => {
    const desk = newSmallFrameDesk();
    const report = await desk.read({
      changes: changesSince(null, demo),
      beside: new Map(),
      setup: '1b',
      camera: 'a',
    });
    const printed = readingLines((await keyfall('meter', `${SCENES}/night-quay.json`, '--setup', '1b')).out);
    expect(setupReadings(report!).map(({ name, stops, plusMinus }) => [name, stops, plusMinus])).toEqual(
      // Mark, receptor, lx, stops, meter, ±, colour.
      printed.map(([name, , , stops, , plusMinus]) => [name, stops, plusMinus]),
    );
  });
});

describe('what the stops of several setups mean', () => {
  const report = (dome_lx: number): MeterReport => ({
    keyfall: 1,
    title: '',
    setup: null,
    camera: 'a',
    exposure: {
      fNumber: 4,
      shutter_s: 0.02,
      iso: 1600,
      nd_stops: 0,
      loss_stops: 0,
      calibration: { flat: 250, dome: 330, reflected: 12.5 },
      zero: { flat_lx: 125, dome_lx, luminance_cd_m2: 6.25 },
    },
    covers: { direct: true, sky: true, bounce: true, haze: true },
    marks: [],
  });

  it('is said once where they share an exposure', () => {
    const words = readingConventions([report(165), report(165)], 'lx');
    expect(words[0]).toContain('dome 165 lx (C 330)');
    expect(new Set(words).size).toBe(words.length);
  });

  it('is each one’s own where exposures differ', () => {
    const words = readingConventions([report(165), report(330)], 'lx');
    expect(words[0]).toMatch(/^Each frame has a zero of its own/);
    expect(words.join(' ')).not.toContain('165 lx');
  });
});
