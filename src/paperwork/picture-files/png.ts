/**
 * PNG by ISO/IEC 15948 (W3C Portable Network Graphics): 8-bit RGB, marked as sRGB, with texts that say how it was made.
 * Each text is an iTXt chunk, so any script can be written; keywords are Latin, 1 to 79 letters.
 */
import { strToU8, Zlib } from 'fflate';
import { checkPicture, type DisplayPicture } from '../../core/picture/picture.ts';
import { crc32 } from './crc32.ts';
import { joinBytes } from './join-bytes.ts';
import { newRowCount, type RowWriter } from './row-writer.ts';

const SIGNATURE = Uint8Array.of(0x89, 0x50, 0x4e, 0x47, 0x0d, 0x0a, 0x1a, 0x0a);
const BITS = 8;
const TRUECOLOUR = 2;
const RELATIVE_COLORIMETRIC = 1;
const PAETH = 4;
const CHANNELS = 3;

/** By keyword; 'Title', 'Description', 'Software' are the standard's. */
export type PngTexts = Readonly<Record<string, string>>;

/**
 * The bytes of a PNG file.
 * RangeError for a malformed picture, for a keyword that is none, and for a text with a null character.
 */
export function pngOf(picture: DisplayPicture, texts: PngTexts = {}): Uint8Array {
  checkPicture(picture);
  const writer = newPngWriter(picture.width_px, picture.height_px);
  writer.rows(picture.rgb);
  return joinBytes(writer.finish(texts));
}

/** The same file from rows of sRGB as they come. RangeError as for `pngOf`. */
export function newPngWriter(width_px: number, height_px: number): RowWriter<Uint8Array, PngTexts> {
  const count = newRowCount(width_px, height_px);
  const pixels: Uint8Array<ArrayBuffer>[] = [];
  const packer = new Zlib({ level: 6 }, (packed) => {
    if (packed.length > 0) pixels.push(chunk('IDAT', packed));
  });
  let above = new Uint8Array(width_px * CHANNELS);
  return {
    rows(values) {
      const rows = count.take(values);
      if (rows === 0) return;
      packer.push(filtered(values, above, rows));
      above = values.slice(-above.length);
    },
    finish(texts) {
      count.checkWhole();
      packer.push(new Uint8Array(), true);
      return [
        SIGNATURE,
        chunk('IHDR', headerData(width_px, height_px)),
        chunk('sRGB', Uint8Array.of(RELATIVE_COLORIMETRIC)),
        ...Object.entries(texts).map(([keyword, text]) => chunk('iTXt', internationalText(keyword, text))),
        ...pixels,
        chunk('IEND', new Uint8Array()),
      ];
    },
  };
}

function headerData(width_px: number, height_px: number): Uint8Array {
  const data = new DataView(new ArrayBuffer(13));
  data.setUint32(0, width_px);
  data.setUint32(4, height_px);
  data.setUint8(8, BITS);
  data.setUint8(9, TRUECOLOUR);
  return new Uint8Array(data.buffer);
}

function chunk(type: string, data: Uint8Array): Uint8Array<ArrayBuffer> {
  const framed = new Uint8Array(data.length + 12);
  framed.set(strToU8(type, true), 4);
  framed.set(data, 8);
  const numbers = new DataView(framed.buffer);
  numbers.setUint32(0, data.length);
  numbers.setUint32(data.length + 8, crc32(framed.subarray(4, data.length + 8)));
  return framed;
}

function internationalText(keyword: string, text: string): Uint8Array {
  if (!/^(?! )(?!.* {2})[\x20-\x7e\xa1-\xff]{1,79}(?<! )$/.test(keyword)) {
    throw new RangeError(
      `PNG keyword "${keyword}" must be 1 to 79 Latin letters, without spaces at its ends or two together`,
    );
  }
  if (text.includes('\0')) throw new RangeError(`PNG text "${keyword}" has a null character; leave it out`);
  // Keyword, null, not compressed (two zeros), no language, no translated keyword.
  return joinBytes([strToU8(keyword, true), new Uint8Array(5), strToU8(text)]);
}

/** Rows by the Paeth filter: what is left is small where the picture is smooth. Above the first row all is 0. */
function filtered(rgb: Uint8Array, rowBefore: Uint8Array, rows: number): Uint8Array {
  const stride = rowBefore.length;
  const out = new Uint8Array(rows * (stride + 1));
  for (let y = 0, to = 0; y < rows; y++) {
    const row = rgb.subarray(y * stride, (y + 1) * stride);
    const above = y === 0 ? rowBefore : rgb.subarray((y - 1) * stride, y * stride);
    out[to++] = PAETH;
    for (let x = 0; x < stride; x++, to++) {
      const left = x < CHANNELS ? 0 : row[x - CHANNELS]!;
      const corner = x < CHANNELS ? 0 : above[x - CHANNELS]!;
      out[to] = row[x]! - paeth(left, above[x]!, corner);
    }
  }
  return out;
}

function paeth(left: number, above: number, corner: number): number {
  const byLeft = Math.abs(above - corner);
  const byAbove = Math.abs(left - corner);
  const byCorner = Math.abs(left + above - 2 * corner);
  if (byLeft <= byAbove && byLeft <= byCorner) return left;
  return byAbove <= byCorner ? above : corner;
}
