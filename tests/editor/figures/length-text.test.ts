import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { lengthFromText, lengthText } from '../../../src/editor/figures/length-text.ts';

describe('a length as text', () => {
  it('reads as a metric tape does', () => {
    expect([0, 0.0064, 0.3048, 2.4, 2.404, -1.5, 12.346, 123.46].map((m) => lengthText(m, 'metric'))).toEqual(
      ['0 m', '0.006 m', '0.305 m', '2.4 m', '2.4 m', '\u22121.5 m', '12.35 m', '123.5 m'],
    );
  });

  it('reads as a tape in feet and inches does', () => {
    // derived: by 1 ft = 0.3048 m exactly
    const text = (m: number) => lengthText(m, 'imperial');
    expect(text(0)).toBe('0 in');
    expect(text(0.001)).toBe('0.04 in');
    expect(text(0.0127)).toBe('½ in');
    expect(text(0.0254 * 6.125)).toBe('6⅛ in');
    expect(text(0.3048)).toBe('1 ft');
    expect(text(2.4892)).toBe('8 ft 2 in');
    expect(text(2.4892 + 0.0127)).toBe('8 ft 2½ in');
    expect(text(-2.4892)).toBe('\u22128 ft 2 in');
    expect(text(3.6575)).toBe('12 ft');
    expect(text(30.48 * 2)).toBe('200 ft');
  });

  it('never says minus nothing', () => {
    expect([
      lengthText(-0.0001, 'metric'),
      lengthText(-0.00001, 'imperial'),
      lengthText(-0, 'metric'),
    ]).toEqual(['0 m', '0 in', '0 m']);
  });
});

describe('a length as people type it', () => {
  it.each([
    ['2.4', 2.4],
    ['2,4', 2.4],
    ['2.4m', 2.4],
    ['2.4 metres', 2.4],
    ['240cm', 2.4],
    ['240 CM', 2.4],
    ['2400 mm', 2.4],
    ['1.2km', 1200],
    ['2m 40', 2.4],
    ['2m40cm', 2.4],
    ['8ft 2in', 2.4892],
    ['8ft2', 2.4892],
    ['8\'2"', 2.4892],
    ['8\u20322\u2033', 2.4892],
    ['8\'-2"', 2.4892],
    ["8'2''", 2.4892],
    ['8 feet 2 1/2 inches', 2.5019],
    ["8'2½", 2.5019],
    ['8 ft. 2 in.', 2.4892],
    ['98in', 2.4892],
    ['½"', 0.0127],
    ['3/4in', 0.01905],
    ['-1.5', -1.5],
    ['\u22121.5 m', -1.5],
    ['-8\'2"', -2.4892],
    ['+3', 3],
    ['.5', 0.5],
    ['0,125', 0.125],
  ])('takes %s', (text, metres) => {
    // derived: by 1 ft = 0.3048 m, 1 in = 0.0254 m exactly
    expect(lengthFromText(text, 'metric')).toBeCloseTo(metres, 12);
  });

  it('takes a bare number in the unit of the system', () => {
    expect(lengthFromText('10', 'metric')).toBe(10);
    expect(lengthFromText('10', 'imperial')).toBeCloseTo(3.048, 12);
    expect(lengthFromText('8 1/2', 'imperial')).toBeCloseTo(2.5908, 12);
    expect(lengthFromText('3m', 'imperial')).toBe(3);
  });

  it.each([
    '',
    ' ',
    '-',
    'm',
    'abc',
    '2x',
    '2 4',
    '2m 4m',
    '2in 8ft',
    '8ft 2 3',
    '1e3',
    '1/0',
    '1,200',
    '2..4',
    '2m-',
    '--2',
    'Infinity',
    '2 m m',
    '٣',
  ])('refuses "%s"', (text) => {
    expect(lengthFromText(text, 'metric')).toBeNull();
  });

  it('reads back what it wrote, within the last digit that it wrote', () => {
    fc.assert(
      fc.property(
        fc.double({ min: -9999, max: 9999, noNaN: true }),
        fc.constantFrom('metric' as const, 'imperial' as const),
        (m, system) => {
          const back = lengthFromText(lengthText(m, system), system);
          const size = Math.abs(m);
          const digit =
            system === 'metric'
              ? size < 1
                ? 0.001
                : size < 100
                  ? 0.01
                  : 0.1
              : size < 0.9
                ? 0.0032
                : size < 30.4
                  ? 0.0127
                  : 0.0254;
          expect(Math.abs(back! - m)).toBeLessThanOrEqual(digit / 2 + 1e-9);
        },
      ),
      { seed: 31, numRuns: 500 },
    );
  });

  it('takes any text without falling over', () => {
    fc.assert(
      fc.property(fc.string({ unit: 'grapheme' }), (text) => {
        const length = lengthFromText(text, 'imperial');
        expect(length === null || Number.isFinite(length)).toBe(true);
      }),
      { seed: 32, numRuns: 500 },
    );
  });
});
