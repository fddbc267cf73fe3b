import { describe, expect, it } from 'vitest';
import { exposureSheet, readingText, shutterText, significant } from '../../src/paperwork/exposure-sheet.ts';
import { compileScene } from '../../src/scene/compile/compile-scene.ts';
import { type MeterReport, meterScene } from '../../src/scene/meter/meter-scene.ts';
import { edited, opened, smallScene } from '../support/scenes.ts';

function report(changes: Record<string, unknown> = {}, request = {}): MeterReport {
  const scene = opened(edited(smallScene(), changes));
  return meterScene(scene, compileScene(scene, { photometry: new Map(), meshes: new Map() }), request);
}

/** A report with figures put into its first mark. */
function withMark(mark: Partial<MeterReport['marks'][0]>): MeterReport {
  const whole = report();
  return { ...whole, marks: [{ ...whole.marks[0]!, ...mark }] };
}

const row = (mark: Partial<MeterReport['marks'][0]>) => exposureSheet(withMark(mark)).rows[0]!;

describe('the exposure sheet', () => {
  it('is headed by setup, camera, stop, shutter, speed and losses', () => {
    expect(exposureSheet(report()).heading).toBe('Base · camera a · f/4 · 1/50 s · ISO 800');
    expect(exposureSheet(report({ 'cameras.0.nd_stops': 0.9, 'cameras.0.loss_stops': 1 })).heading).toBe(
      'Base · camera a · f/4 · 1/50 s · ISO 800 · ND 0.9 stops · lens loss 1 stop',
    );
    expect(exposureSheet({ ...report(), setup: '1a' }).heading).toMatch(/^Setup 1a · /);
  });

  it('has a row for each mark, in its order, with every lamp', () => {
    const sheet = exposureSheet(
      report({
        'marks.1': { id: 'second', name: 'Second', position_m: [1, 1, 0.01], facing: 'lamp:key' },
        'lamps.1': { id: 'fill', head: 'plain', position_m: [1, 1, 4], aim_m: [0, 1, 0] },
      }),
    );
    expect(sheet.rows.map((r) => [r.id, r.name, r.receptor])).toEqual([
      ['face', 'face', 'flat → 0, 0, 1'],
      ['second', 'Second', 'dome → lamp:key'],
    ]);
    for (const { lamps } of sheet.rows) expect(lamps.map((l) => l.id)).toEqual(['key', 'fill']);
  });

  it('prints what was read: three figures, thirds of a stop, f-number, ±, colour', () => {
    // Derived: 2000 cd at 3.99 m, camera zero 250 lx; ± is 1/3 or 2/3 stop of the photometry, here a beam's 2/3.
    expect(exposureSheet(report()).rows[0]).toEqual({
      id: 'face',
      name: 'face',
      receptor: 'flat → 0, 0, 1',
      reading: '126',
      stops: '−1',
      fNumber: 'f/2.8',
      plusMinus: '±0.7',
      colour: '3200 K',
      lamps: [{ id: 'key', reading: '126', stops: '−1' }],
      sky: '0',
      bounce: '0',
      haze: '0',
    });
  });

  it('puts both uncertainties together in quadrature', () => {
    expect(row({ uncertainty: { numerical_stops: 0.3, input_stops: 0.4 } }).plusMinus).toBe('±0.5');
  });

  it('says nothing about the dark', () => {
    const dark = exposureSheet(report({ 'lamps.0.on': false })).rows[0]!;
    expect(dark).toMatchObject({ reading: '0', stops: '−∞', fNumber: 'none', plusMinus: '–', colour: '' });
  });

  it('rounds a colour temperature to what a meter shows, and names no kelvin for what is no white', () => {
    expect(row({ cct_K: 4327, duv: 0.001 }).colour).toBe('4350 K');
    expect(row({ cct_K: null, duv: 0.08 }).colour).toBe('not a white');
  });

  it('prints its conventions with the zero they lead to, in the unit of the sheet', () => {
    const [zero, ...others] = exposureSheet(report()).footer;
    expect(zero).toBe(
      'Zero of the camera: flat 250 lx (C 250), dome 330 lx (C 330), spot 12.5 cd/m² (K 12.5).',
    );
    expect(others.join(' ')).toContain('to the nearest third');
    expect(exposureSheet(report(), 'fc').footer[0]).toContain('flat 23.2 fc (C 250), dome 30.7 fc (C 330)');
    expect(exposureSheet(report({ calibration: { flat: 300 } })).footer[0]).toContain('flat 300 lx (C 300)');
  });

  it('says which light is counted', () => {
    expect(exposureSheet(report()).footer.join(' ')).toContain('Bounce and the glow of haze are not counted');
    const all = exposureSheet(report({}, { light: 'all', error_stops: 1 })).footer.join(' ');
    expect(all).toContain('All light of lamps and sky');
    expect(all).not.toContain('not counted');
  });

  it('says at its foot that it is a planning aid', () => {
    expect(exposureSheet(report()).footer.at(-1)).toMatch(/^Planning aid only\. Meter on the night/);
  });
});

describe('digits', () => {
  it.each([
    [0, '0'],
    [0.004, '0'],
    [0.006, '0.01'],
    [0.123, '0.12'],
    [1.005, '1'],
    [1.237, '1.24'],
    [12.34, '12.3'],
    [99.96, '100'],
    [123.4, '123'],
    [999.6, '1000'],
    [1234, '1230'],
    [98_760, '98800'],
    [1.5e7, '15000000'],
  ])('%d is %s', (value, text) => expect(significant(value)).toBe(text));

  it.each([
    [10.763910416709722, 'fc', '1'],
    [250, 'fc', '23.2'],
    [250, 'lx', '250'],
  ] as const)('%d lx in %s is %s', (lx, unit, text) => {
    // published: 1 fc = 1/0.3048² lx exactly.
    expect(readingText(lx, unit)).toBe(text);
  });

  it.each([
    [0.02, '1/50 s'],
    [1 / 48, '1/48 s'],
    [0.0208333, '1/48 s'],
    [1 / 8000, '1/8000 s'],
    [0.25, '1/4 s'],
    [0.5, '0.5 s'],
    [2, '2 s'],
    [30, '30 s'],
  ])('a shutter of %d s is %s', (shutter_s, text) => expect(shutterText(shutter_s)).toBe(text));
});
