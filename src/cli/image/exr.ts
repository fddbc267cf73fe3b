/**
 * OpenEXR by its published file layout, version 2: one part, scan lines from the top, 32-bit float channels B, G, R, ZIP
 * compression in blocks of 16 lines. For scene light, with what it means: primaries, white luminance, settings.
 */
import { deflateSync } from 'node:zlib';
import { PRIMARIES } from '../../core/picture/linear-rgb.ts';
import { checkPicture, type LinearPicture } from '../../core/picture/picture.ts';
import { positive } from '../../core/units/quantity.ts';

const MAGIC = 20000630;
const VERSION = 2;
const FLOAT = 2;
const ZIP = 3;
const LINES_A_BLOCK = 16;
const INCREASING_Y = 0;
/** Channels in the order the format asks for, by name, each with its place in a pixel of ours. */
const CHANNELS = [
  ['B', 2],
  ['G', 1],
  ['R', 0],
] as const;
const BYTES_A_VALUE = 4;
const LONGEST_NAME_bytes = 31;

export interface ExrMeaning {
  /** Luminance of RGB (1, 1, 1), cd/m²: L₀ of the camera for a picture relative to its zero. */
  readonly whiteLuminance_cd_m2: number;
  /**
   * Settings by attribute name. Numbers are stored as floats, words as strings. The format has names of its own for some:
   * expTime (s), aperture (f-number), isoSpeed, cameraCCTSetting (K), comments.
   */
  readonly settings?: Readonly<Record<string, string | number>>;
}

/** The bytes of an OpenEXR file. RangeError for a malformed picture, a name that is none or taken, or a number that is none. */
export function exrOf(
  picture: LinearPicture,
  { whiteLuminance_cd_m2, settings = {} }: ExrMeaning,
): Uint8Array {
  checkPicture(picture);
  const header = headerOf(picture, positive(whiteLuminance_cd_m2, 'white luminance in cd/m²'), settings);
  const blocks = blocksOf(picture);
  const offsets = Buffer.alloc(8 * blocks.length);
  let offset = header.length + offsets.length;
  for (const [i, block] of blocks.entries()) {
    offsets.writeBigUInt64LE(BigInt(offset), 8 * i);
    offset += block.length;
  }
  return Buffer.concat([header, offsets, ...blocks]);
}

function headerOf(
  { width_px, height_px }: LinearPicture,
  whiteLuminance: number,
  settings: Readonly<Record<string, string | number>>,
): Buffer {
  const window = int32(0, 0, width_px - 1, height_px - 1);
  const { red, green, blue, white } = PRIMARIES;
  const channels = CHANNELS.map(([name]) => Buffer.concat([text(name), int32(FLOAT, 0, 1, 1)]));
  const own = new Map<string, readonly [type: string, value: Uint8Array]>([
    ['channels', ['chlist', Buffer.concat([...channels, Uint8Array.of(0)])]],
    [
      'chromaticities',
      ['chromaticities', float32(...[red, green, blue, white].flatMap(({ x, y }) => [x, y]))],
    ],
    ['compression', ['compression', Uint8Array.of(ZIP)]],
    ['dataWindow', ['box2i', window]],
    ['displayWindow', ['box2i', window]],
    ['lineOrder', ['lineOrder', Uint8Array.of(INCREASING_Y)]],
    ['pixelAspectRatio', ['float', float32(1)]],
    ['screenWindowCenter', ['v2f', float32(0, 0)]],
    ['screenWindowWidth', ['float', float32(1)]],
    ['whiteLuminance', ['float', float32(whiteLuminance)]],
  ]);
  const attributes = [...own].map(([name, [type, value]]) => attribute(name, type, value));
  for (const [name, value] of Object.entries(settings)) {
    const length = Buffer.byteLength(name);
    if (own.has(name) || length < 1 || length > LONGEST_NAME_bytes || name.includes('\0')) {
      throw new RangeError(
        `EXR setting "${name}" must have a name of 1 to ${LONGEST_NAME_bytes} bytes that the file does not use itself`,
      );
    }
    if (typeof value === 'string') {
      attributes.push(attribute(name, 'string', Buffer.from(value, 'utf8')));
    } else if (Number.isFinite(Math.fround(value))) {
      attributes.push(attribute(name, 'float', float32(value)));
    } else {
      throw new RangeError(`EXR setting "${name}" is ${value}; it must be a finite number or a text`);
    }
  }
  return Buffer.concat([int32(MAGIC, VERSION), ...attributes, Uint8Array.of(0)]);
}

function attribute(name: string, type: string, value: Uint8Array): Buffer {
  return Buffer.concat([text(name), text(type), int32(value.length), value]);
}

function text(name: string): Buffer {
  return Buffer.from(`${name}\0`, 'utf8');
}

function int32(...values: number[]): Buffer {
  const bytes = Buffer.alloc(4 * values.length);
  for (const [i, value] of values.entries()) bytes.writeInt32LE(value, 4 * i);
  return bytes;
}

function float32(...values: number[]): Buffer {
  const bytes = Buffer.alloc(4 * values.length);
  for (const [i, value] of values.entries()) bytes.writeFloatLE(value, 4 * i);
  return bytes;
}

function blocksOf(picture: LinearPicture): Buffer[] {
  const blocks: Buffer[] = [];
  for (let y = 0; y < picture.height_px; y += LINES_A_BLOCK) {
    const raw = linesOf(picture, y, Math.min(picture.height_px, y + LINES_A_BLOCK));
    const packed = deflateSync(differenced(raw), { level: 6 });
    // The format keeps whichever is smaller; a reader tells by the size.
    const data = packed.length < raw.length ? packed : raw;
    blocks.push(Buffer.concat([int32(y, data.length), data]));
  }
  return blocks;
}

/** Line after line, and in each line one channel after the other. */
function linesOf({ width_px, rgb }: LinearPicture, from: number, to: number): Buffer {
  const bytes = Buffer.alloc((to - from) * width_px * CHANNELS.length * BYTES_A_VALUE);
  let at = 0;
  for (let y = from; y < to; y++) {
    for (const [, component] of CHANNELS) {
      for (let x = 0; x < width_px; x++)
        at = bytes.writeFloatLE(rgb[3 * (y * width_px + x) + component]!, at);
    }
  }
  return bytes;
}

/** What ZIP compresses: the even bytes, then the odd ones, each as its difference from the one before, plus 128. */
function differenced(raw: Uint8Array): Uint8Array {
  const half = (raw.length + 1) >> 1;
  const out = new Uint8Array(raw.length);
  for (let i = 0; i < raw.length; i++) out[(i & 1) * half + (i >> 1)] = raw[i]!;
  for (let i = out.length - 1; i > 0; i--) out[i] = out[i]! - out[i - 1]! + 128;
  return out;
}
