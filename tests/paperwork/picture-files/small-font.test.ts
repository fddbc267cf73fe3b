import { describe, expect, it } from 'vitest';
import { textWidth_px, writeText } from '../../../src/paperwork/picture-files/small-font.ts';

/** The text as rows of # and . */
function written(text: string, dot: number): string[] {
  const [width_px, height_px] = [textWidth_px(text, dot), 7 * dot];
  const rgb = new Uint8Array(3 * width_px * height_px);
  writeText({ width_px, height_px, rgb }, text, 0, 0, dot, [255, 255, 255]);
  return Array.from({ length: height_px }, (_, y) =>
    Array.from({ length: width_px }, (_, x) => (rgb[3 * (y * width_px + x)] ? '#' : '.')).join(''),
  );
}

describe('the small font', () => {
  it('tells every letter from every other', () => {
    const letters = [...'0123456789+\u2212<>'].map((letter) => written(letter, 1).join('\n'));
    expect(new Set(letters).size).toBe(14);
    for (const letter of letters) expect(letter).toMatch(/#/);
  });

  it('writes a minus as one bar, with a dot between letters', () => {
    // derived: 5 dots a letter, 1 between
    expect(textWidth_px('\u22126', 1)).toBe(11);
    const rows = written('\u22126', 1);
    expect(rows.filter((row) => row.startsWith('#####.'))).toHaveLength(1);
    expect(rows.map((row) => row[5]).join('')).toBe('.......');
  });

  it('doubles every dot when asked', () => {
    // derived: taking every second dot of every second row gives the letters back
    const halved = written('+4', 2).map((row) => row.replace(/(.)\1/g, '$1'));
    expect(halved.filter((_, y) => y % 2 === 0)).toEqual(written('+4', 1));
    expect(halved.filter((_, y) => y % 2 === 1)).toEqual(written('+4', 1));
  });

  it('leaves out what falls outside', () => {
    const rgb = new Uint8Array(3 * 4);
    writeText({ width_px: 2, height_px: 2, rgb }, '0', -3, -5, 1, [1, 1, 1]);
    // derived: of the last two rows and columns of a 0, "#." is cut to columns 3 and 4: '.#' and '#.'
    expect([rgb[0], rgb[3], rgb[6], rgb[9]]).toEqual([0, 1, 1, 0]);
  });

  it('says which letters it has', () => {
    expect(() => written('A', 1)).toThrow('no letter "A" in the small font; it has 0123456789');
  });
});
