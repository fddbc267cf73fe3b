/**
 * OpenEXR by its published file layout, version 2: one part, scan lines from the top, 32-bit float channels B, G, R, ZIP
 * compression in blocks of 16 lines. For scene light, with what it means: primaries, white luminance, settings.
 */
import { zlibSync } from 'fflate';
import { checkPicture, type LinearPicture } from '../../core/picture/picture.ts';
import { type ExrMeaning, exrHeader, int32 } from './exr-header.ts';
import { joinBytes } from './join-bytes.ts';
import { newRowCount, type RowWriter } from './row-writer.ts';

const LINES_A_BLOCK = 16;
/** Channels in the order the format asks for, by name, each with its place in a pixel of ours. */
const CHANNELS = [
  ['B', 2],
  ['G', 1],
  ['R', 0],
] as const;
const BYTES_A_VALUE = 4;

/** The bytes of an OpenEXR file. RangeError for a malformed picture, a name that is none or taken, or a number that is none. */
export function exrOf(picture: LinearPicture, meaning: ExrMeaning): Uint8Array {
  checkPicture(picture);
  const writer = newExrWriter(picture.width_px, picture.height_px);
  writer.rows(picture.rgb);
  return joinBytes(writer.finish(meaning));
}

/** The same file from rows of linear RGB as they come. RangeError as for `exrOf`. */
export function newExrWriter(
  width_px: number,
  height_px: number,
): RowWriter<LinearPicture['rgb'], ExrMeaning> {
  const count = newRowCount(width_px, height_px);
  const blocks: Uint8Array<ArrayBuffer>[] = [];
  let lines = new DataView(new ArrayBuffer(0));
  let inBlock = 0;
  return {
    rows(values) {
      const rows = count.take(values);
      for (let row = 0; row < rows; row++) {
        const firstLine = LINES_A_BLOCK * blocks.length;
        const wanted = Math.min(LINES_A_BLOCK, height_px - firstLine);
        if (inBlock === 0) lines = new DataView(new ArrayBuffer(wanted * bytesOfLine(width_px)));
        setLine(lines, inBlock++, values, row, width_px);
        if (inBlock < wanted) continue;
        blocks.push(blockOf(firstLine, new Uint8Array(lines.buffer)));
        inBlock = 0;
      }
    },
    finish(meaning) {
      count.checkWhole();
      const names = CHANNELS.map(([name]) => name);
      const header = exrHeader(width_px, height_px, names, meaning);
      return [header, offsetTable(header.length, blocks), ...blocks];
    },
  };
}

function bytesOfLine(width_px: number): number {
  return width_px * CHANNELS.length * BYTES_A_VALUE;
}

/** Where each block begins in the file. */
function offsetTable(headerLength: number, blocks: readonly Uint8Array[]): Uint8Array<ArrayBuffer> {
  const table = new DataView(new ArrayBuffer(8 * blocks.length));
  let offset = headerLength + table.byteLength;
  for (const [i, block] of blocks.entries()) {
    table.setBigUint64(8 * i, BigInt(offset), true);
    offset += block.length;
  }
  return new Uint8Array(table.buffer);
}

/** One channel after the other. */
function setLine(
  lines: DataView,
  line: number,
  rgb: LinearPicture['rgb'],
  row: number,
  width_px: number,
): void {
  let at = line * bytesOfLine(width_px);
  for (const [, component] of CHANNELS) {
    for (let x = 0; x < width_px; x++, at += BYTES_A_VALUE)
      lines.setFloat32(at, rgb[3 * (row * width_px + x) + component]!, true);
  }
}

function blockOf(firstLine: number, raw: Uint8Array): Uint8Array<ArrayBuffer> {
  const packed = zlibSync(differenced(raw), { level: 6 });
  // The format keeps whichever is smaller; a reader tells by the size.
  const data = packed.length < raw.length ? packed : raw;
  return joinBytes([int32(firstLine, data.length), data]);
}

/** What ZIP compresses: the even bytes, then the odd ones, each as its difference from the one before, plus 128. */
function differenced(raw: Uint8Array): Uint8Array {
  const half = (raw.length + 1) >> 1;
  const out = new Uint8Array(raw.length);
  for (let i = 0; i < raw.length; i++) out[(i & 1) * half + (i >> 1)] = raw[i]!;
  for (let i = out.length - 1; i > 0; i--) out[i] = out[i]! - out[i - 1]! + 128;
  return out;
}
