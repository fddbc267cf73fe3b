import { describe, expect, it } from 'vitest';
import type { DisplayPicture } from '../../../src/core/picture/picture.ts';
import { newPngWriter, pngOf } from '../../../src/paperwork/picture-files/png.ts';
import { crcOf, readPng } from './png-reader.ts';

/** A picture that exercises every value and, by its noise, every branch of the row filter. */
function picture(width_px: number, height_px: number): DisplayPicture {
  let seed = 15948;
  const rgb = Uint8Array.from({ length: 3 * width_px * height_px }, (_, i) => {
    seed = (Math.imul(seed, 1664525) + 1013904223) >>> 0;
    return i % 2 === 0 ? seed >>> 24 : (i * 3) & 255;
  });
  return { width_px, height_px, rgb };
}

describe('a PNG file', () => {
  it.each([
    [1, 1],
    [1, 9],
    [9, 1],
    [37, 23],
  ])('of %d × %d px comes back as it was', (width, height) => {
    const original = picture(width, height);
    const read = readPng(pngOf(original));
    expect([read.width, read.height]).toEqual([width, height]);
    expect(read.rgb).toEqual([...original.rgb]);
  });

  it('is 8-bit truecolour, marked sRGB before the pixels', () => {
    const { chunks } = readPng(pngOf(picture(2, 2), { Title: 'x' }));
    expect(chunks.map(({ type }) => type)).toEqual(['IHDR', 'sRGB', 'iTXt', 'IDAT', 'IEND']);
    // published: ISO/IEC 15948: depth 8, colour type 2, deflate, adaptive filters, no interlace
    expect([...chunks[0]!.data.subarray(8)]).toEqual([8, 2, 0, 0, 0]);
  });

  it('ends as every PNG ends', () => {
    // published: the twelve bytes of IEND with the CRC AE 42 60 82 that the standard's chunk gives (from memory)
    expect(Buffer.from(pngOf(picture(1, 1)).slice(-12)).toString('hex')).toBe('0000000049454e44ae426082');
    expect(crcOf(Buffer.from('IEND', 'latin1'))).toBe(0xae426082);
  });

  it('carries texts in any script', () => {
    const texts = {
      Title: 'Последняя лодка',
      Description: 'f/4, 1/50 s, ISO 800: L₀ = 12.5 cd/m²; key \u22120⅓\nsecond line',
      'Creation Time': '',
    };
    expect(Object.fromEntries(readPng(pngOf(picture(3, 3), texts)).texts)).toEqual(texts);
  });

  it.each(['', ' Title', 'Title ', 'two  spaces', 'Заглавие', 'line\nbreak', 'x'.repeat(80)])(
    'has no keyword "%s"',
    (keyword) => {
      expect(() => pngOf(picture(1, 1), { [keyword]: 'text' })).toThrow('must be 1 to 79 Latin letters');
    },
  );

  it('has no null character in a text', () => {
    expect(() => pngOf(picture(1, 1), { Title: 'a\0b' })).toThrow('PNG text "Title" has a null character');
  });

  it('is not made of a picture whose sizes disagree', () => {
    expect(() => pngOf({ ...picture(2, 2), width_px: 3 })).toThrow(
      '3 × 2 px has 12 components; it must have 18',
    );
  });

  it.each([1, 7, 16, 64])('of rows that came %d at a time is the same picture', (step) => {
    // Noise that hardly packs, so that rows pass the packer's window of 32 KiB many times over.
    const original = picture(500, 200);
    const writer = newPngWriter(500, 200);
    for (let at = 0; at < original.rgb.length; at += 1500 * step)
      writer.rows(original.rgb.subarray(at, at + 1500 * step));
    const read = readPng(Buffer.concat(writer.finish({ Title: 'x' })));
    expect(Buffer.from(read.rgb).equals(Buffer.from(original.rgb))).toBe(true);
    expect(read.texts.get('Title')).toBe('x');
    expect(read.chunks.at(-1)!.type).toBe('IEND');
  });

  it('takes whole rows, as many as there are, and is not finished before', () => {
    expect(() => newPngWriter(2, 0)).toThrow('picture is 0 px high');
    const writer = newPngWriter(2, 3);
    expect(() => writer.rows(new Uint8Array(7))).toThrow('7 values are no whole number of rows');
    writer.rows(new Uint8Array(12));
    expect(() => writer.finish({})).toThrow('2 of 3 rows are there');
    expect(() => writer.rows(new Uint8Array(12))).toThrow('row 4 of a picture that is 3 px high');
    writer.rows(new Uint8Array(0));
    writer.rows(new Uint8Array(6));
    expect(readPng(Buffer.concat(writer.finish({}))).rgb).toEqual(new Array(18).fill(0));
  });
});
