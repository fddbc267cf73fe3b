import stringWidth from 'string-width';
import { describe, expect, it } from 'vitest';
import { textTable } from '../../src/cli/text-table.ts';

describe('text table', () => {
  it('puts the first column to the left and the others to the right', () => {
    expect(
      textTable([
        ['Mark', 'lx'],
        ['Ada', '1250'],
        ['Quay edge', '3'],
      ]),
    ).toBe(['Mark         lx', 'Ada        1250', 'Quay edge     3'].join('\n'));
  });

  it('may have more columns on the left', () => {
    expect(
      textTable(
        [
          ['a', 'bb', 'c'],
          ['aaa', 'b', 'cc'],
        ],
        2,
      ),
    ).toBe('a    bb   c\naaa  b   cc');
  });

  it('ends no line with blanks', () => {
    expect(
      textTable([
        ['a', ''],
        ['b', ''],
      ]),
    ).toBe('a\nb');
  });

  it('counts the cells of the screen, not the letters', () => {
    const rows = [
      ['名前', '1'],
      ['ab', '22'],
      ['👩‍🚀', '333'],
      ['é', '4'],
    ];
    const widths = textTable(rows)
      .split('\n')
      .map((line) => stringWidth(line));
    expect(new Set(widths).size).toBe(1);
  });

  it('of nothing is nothing', () => expect(textTable([])).toBe(''));
});
