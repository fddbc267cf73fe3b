import { describe, expect, it } from 'vitest';
import {
  columnsOf,
  isLong,
  joinedColumnsOf,
  leastWidth_px,
} from '../../../src/editor/answers/sheet-columns.ts';

const POWER = [
  ['Lamp', 'Head', 'VA', 'draws', ''],
  ['Back', 'Discharge 1.8 kW', '2112', '', 'off'],
  ['Key', 'LED head', '174', '', 'at 50 %'],
];

describe('columns of a sheet', () => {
  it('are left out where they say nothing in any row, but for the first', () => {
    expect(columnsOf(POWER, 2).map(({ heading }) => heading)).toEqual(['Lamp', 'Head', 'VA', '']);
    expect(columnsOf([['Lamp'], ['']], 1)).toHaveLength(1);
  });

  it('without a heading go on with the one before, even where that says nothing itself', () => {
    const joined = joinedColumnsOf(POWER, 2);
    expect(joined.map(({ heading }) => heading)).toEqual(['Lamp', 'Head', 'VA', 'draws']);
    expect(joined[3]!.cells).toEqual(['off', 'at 50 %']);
    const both = joinedColumnsOf(
      [
        ['Supply', 'drop', ''],
        ['Socket', '6.3 V', '2.8 %'],
      ],
      1,
    );
    expect(both[1]!.cells).toEqual(['6.3 V, 2.8 %']);
  });

  it('do not join what names the row', () => {
    const sheet = [
      ['', '', 'Evening'],
      ['Sunset', 'clear', '17:51'],
    ];
    expect(joinedColumnsOf(sheet, 1).map(({ cells }) => cells[0])).toEqual(['Sunset', 'clear', '17:51']);
  });

  it('are as narrow as their longest word, or figure whole', () => {
    const letter_px = (text: string) => 10 * text.length;
    const columns = columnsOf(
      [
        ['Mark', 'now read'],
        ['Ada face', '2.5 lx'],
      ],
      1,
    );
    // Derived: words of 4 letters, but no narrower than the whole of 8 letters; a figure of 6; 5 of room for each.
    expect(leastWidth_px(columns, letter_px, 5)).toBe(80 + 60 + 2 * 5);
  });

  it('of words and of long figures have lines of their own', () => {
    const [, head, va] = columnsOf(POWER, 2);
    expect([isLong(head!), isLong(va!)]).toEqual([true, false]);
    expect(isLong({ ...va!, cells: ['visibility 1200 m'] })).toBe(true);
  });
});
