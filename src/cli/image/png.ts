/**
 * PNG by ISO/IEC 15948 (W3C Portable Network Graphics): 8-bit RGB, marked as sRGB, with texts that say how it was made.
 * Each text is an iTXt chunk, so any script can be written; keywords are Latin, 1 to 79 letters.
 */
import { crc32, deflateSync } from 'node:zlib';
import { checkPicture, type DisplayPicture } from '../../core/picture/picture.ts';

const SIGNATURE = Uint8Array.of(0x89, 0x50, 0x4e, 0x47, 0x0d, 0x0a, 0x1a, 0x0a);
const BITS = 8;
const TRUECOLOUR = 2;
const RELATIVE_COLORIMETRIC = 1;
const PAETH = 4;
const CHANNELS = 3;

/**
 * The bytes of a PNG file. `texts` by keyword ('Title', 'Description', 'Software' are the standard's).
 * RangeError for a malformed picture, for a keyword that is none, and for a text with a null character.
 */
export function pngOf(picture: DisplayPicture, texts: Readonly<Record<string, string>> = {}): Uint8Array {
  checkPicture(picture);
  const header = Buffer.alloc(13);
  header.writeUInt32BE(picture.width_px, 0);
  header.writeUInt32BE(picture.height_px, 4);
  header.set([BITS, TRUECOLOUR, 0, 0, 0], 8);
  return Buffer.concat([
    SIGNATURE,
    chunk('IHDR', header),
    chunk('sRGB', Uint8Array.of(RELATIVE_COLORIMETRIC)),
    ...Object.entries(texts).map(([keyword, text]) => chunk('iTXt', internationalText(keyword, text))),
    chunk('IDAT', deflateSync(filtered(picture), { level: 9 })),
    chunk('IEND', new Uint8Array()),
  ]);
}

function chunk(type: string, data: Uint8Array): Uint8Array {
  const body = Buffer.concat([Buffer.from(type, 'latin1'), data]);
  const framed = Buffer.alloc(body.length + 8);
  framed.writeUInt32BE(data.length, 0);
  framed.set(body, 4);
  framed.writeUInt32BE(crc32(body), framed.length - 4);
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
  return Buffer.concat([Buffer.from(keyword, 'latin1'), new Uint8Array(5), Buffer.from(text, 'utf8')]);
}

/** Every row by the Paeth filter, which is Sub in the first row: what is left is small where the picture is smooth. */
function filtered({ width_px, height_px, rgb }: DisplayPicture): Uint8Array {
  const stride = width_px * CHANNELS;
  const out = new Uint8Array(height_px * (stride + 1));
  for (let y = 0, to = 0; y < height_px; y++) {
    out[to++] = PAETH;
    for (let x = 0; x < stride; x++, to++) {
      const at = y * stride + x;
      const left = x < CHANNELS ? 0 : rgb[at - CHANNELS]!;
      const above = y === 0 ? 0 : rgb[at - stride]!;
      const corner = x < CHANNELS || y === 0 ? 0 : rgb[at - stride - CHANNELS]!;
      out[to] = rgb[at]! - paeth(left, above, corner);
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
