import { describe, expect, it } from 'vitest';
import { FALSE_COLOUR_SCALE } from '../../../src/core/picture/false-colour.ts';
import type { DisplayPicture } from '../../../src/core/picture/picture.ts';
import { withScaleBar } from '../../../src/paperwork/picture-files/scale-bar.ts';

const plain = (width_px: number, height_px: number): DisplayPicture => ({
  width_px,
  height_px,
  rgb: new Uint8Array(3 * width_px * height_px).fill(90),
});
const pixel = ({ width_px, rgb }: DisplayPicture, x: number, y: number) => [
  ...rgb.subarray(3 * (y * width_px + x), 3 * (y * width_px + x) + 3),
];
const INK = 0xe6;

/** Runs of columns with ink among the rows of letters, as [first, last], wherever `gap` columns without ink part them. */
function labels(bar: DisplayPicture, top: number, gap: number): [number, number][] {
  const found: [number, number][] = [];
  for (let x = 0; x < bar.width_px; x++) {
    let inked = false;
    for (let y = top; y < bar.height_px; y++) inked ||= pixel(bar, x, y)[0] === INK;
    if (!inked) continue;
    const last = found.at(-1);
    if (last && x - last[1] <= gap) last[1] = x;
    else found.push([x, x]);
  }
  return found;
}

describe('the false-colour scale bar', () => {
  const picture = plain(480, 200);
  const bar = withScaleBar(picture);
  // derived: the layout at one pixel a dot: margin 3, band 10, margin 3, letters 7, margin 3
  const bandMiddle = 200 + 3 + 5;
  const lettersTop = 200 + 3 + 10 + 3;

  it('stands beneath the picture and leaves that alone', () => {
    expect([bar.width_px, bar.height_px]).toEqual([480, 226]);
    expect(bar.rgb.subarray(0, picture.rgb.length)).toEqual(picture.rgb);
  });

  it('has a band of equal width for each step, dark to light', () => {
    for (const [i, { rgb }] of FALSE_COLOUR_SCALE.entries()) {
      for (const x of [32 * i, 32 * i + 16, 32 * i + 31]) expect(pixel(bar, x, bandMiddle)).toEqual([...rgb]);
    }
  });

  it('labels every step in the middle of its band', () => {
    const found = labels(bar, lettersTop, 2);
    expect(found).toHaveLength(15);
    // derived: letters of 5 dots leave up to 2 dots free at a side
    for (const [i, [first, last]] of found.entries()) {
      expect(Math.abs((first + last) / 2 - (32 * i + 15.5))).toBeLessThan(2.5);
    }
  });

  it('notches middle grey, and nothing else', () => {
    const notched = (y: number) =>
      Array.from({ length: 15 }, (_, i) => pixel(bar, 32 * i + 16, y)[0] === INK);
    const onlyGrey = Array.from({ length: 15 }, (_, i) => i === 7);
    expect(notched(201)).toEqual(onlyGrey);
    expect(notched(214)).toEqual(onlyGrey);
  });

  it('grows with the picture', () => {
    const large = withScaleBar(plain(1920, 10));
    expect(large.height_px).toBe(10 + 4 * 26);
    expect(labels(large, 10 + 4 * 16, 8)).toHaveLength(15);
  });

  it.each([
    [200, 7],
    [120, 5],
    [60, 3],
    [30, 1],
  ])('of %d px has room for %d labels, one of them middle grey', (width, count) => {
    const small = withScaleBar(plain(width, 5));
    const found = labels(small, 5 + 16, 2);
    expect(found).toHaveLength(count);
    expect(found.some(([first, last]) => Math.abs((first + last) / 2 - (width - 1) / 2) < 3)).toBe(true);
  });

  it('can be put under a picture of a single pixel', () => {
    expect(withScaleBar(plain(1, 1)).rgb).toHaveLength(3 * 27);
  });
});
