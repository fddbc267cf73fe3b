import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { numberFromText } from '../../../src/editor/figures/number-text.ts';
import {
  type FigureTaste,
  figureText,
  QUANTITIES,
  type Quantity,
} from '../../../src/editor/figures/quantity.ts';

const METRIC: FigureTaste = { lengths: 'metric', unit: 'lx' };
const IMPERIAL: FigureTaste = { lengths: 'imperial', unit: 'fc' };

describe('figures as people type them', () => {
  it.each([
    ['kelvin', '5600K', 5600],
    ['kelvin', '5600 k', 5600],
    ['angle', '30°', 30],
    ['angle', '-12.5 deg', -12.5],
    ['fNumber', 'f/4', 4],
    ['fNumber', 'F2.8', 2.8],
    ['fNumber', '5.6', 5.6],
    ['shutter', '1/50', 0.02],
    ['shutter', '1/50 s', 0.02],
    ['shutter', '0.02', 0.02],
    ['shutter', '2s', 2],
    ['percent', '50%', 0.5],
    ['percent', '50', 0.5],
    ['percent', '30 percent', 0.3],
    ['stops', '1/3', 1 / 3],
    ['stops', '1⅔', 5 / 3],
    ['ampere', '16A', 16],
    ['mired', '\u221278', -78],
    ['illuminance', '250', 250],
    ['illuminance', '250lux', 250],
    ['length', '8\'2"', 2.4892],
  ] as const)('%s: %s', (name, text, value) => {
    expect(QUANTITIES[name].fromText(text, METRIC)).toBeCloseTo(value, 10);
  });

  it('take foot-candles where they are shown, and either where it is named', () => {
    // published: 1 fc = 10.763910 lx
    expect(QUANTITIES.illuminance.fromText('10', IMPERIAL)).toBeCloseTo(107.6391, 4);
    expect(QUANTITIES.illuminance.fromText('10fc', METRIC)).toBeCloseTo(107.6391, 4);
    expect(QUANTITIES.illuminance.fromText('10lx', IMPERIAL)).toBe(10);
  });

  it('refuse what could be two things', () => {
    // A bare 50 is a fiftieth on one camera's dial and fifty seconds on another's.
    expect(QUANTITIES.shutter.fromText('50', METRIC)).toBeNull();
    expect(QUANTITIES.illuminance.fromText('1,200', METRIC)).toBeNull();
    expect(QUANTITIES.kelvin.fromText('warm', METRIC)).toBeNull();
    expect(QUANTITIES.fNumber.fromText('1/', METRIC)).toBeNull();
    expect(numberFromText('1e9')).toBeNull();
  });

  it('read with their unit', () => {
    expect(figureText('shutter', 0.02, METRIC)).toBe('1/50 s');
    expect(figureText('shutter', 1 / 3, METRIC)).toBe('1/3 s');
    expect(figureText('shutter', 0.5, METRIC)).toBe('0.5 s');
    expect(figureText('fNumber', 2.8, METRIC)).toBe('f/2.8');
    expect(figureText('angle', -30, METRIC)).toBe('\u221230°');
    expect(figureText('percent', 0.333, METRIC)).toBe('33.3 %');
    expect(figureText('length', 2.4892, IMPERIAL)).toBe('8 ft 2 in');
    expect(figureText('illuminance', 107.639, IMPERIAL)).toBe('10 fc');
  });

  it('are dialled in whole fractions of a second', () => {
    expect(QUANTITIES.shutter.nice!(0.0203)).toBeCloseTo(1 / 49, 12);
    expect(QUANTITIES.shutter.nice!(0.00123)).toBeCloseTo(1 / 810, 12);
    expect(QUANTITIES.shutter.nice!(1.234)).toBe(1.2);
  });

  it('read back what they show', () => {
    for (const [name, quantity] of Object.entries(QUANTITIES) as [string, Quantity][]) {
      fc.assert(
        fc.property(
          fc.double({ min: 0.001, max: 1.5, noNaN: true }),
          fc.constantFrom(METRIC, IMPERIAL),
          (value, taste) => {
            const text = quantity.text(value, taste);
            const shown = quantity.fromText(`${text} ${quantity.unit(taste)}`, taste);
            expect(shown, `${name} ${text}`).not.toBeNull();
            expect(quantity.text(shown!, taste)).toBe(text);
          },
        ),
        { seed: 7, numRuns: 50 },
      );
    }
  });
});
