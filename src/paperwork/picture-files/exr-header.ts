import { strToU8 } from 'fflate';
import { PRIMARIES } from '../../core/picture/linear-rgb.ts';
import { positive } from '../../core/units/quantity.ts';
import { joinBytes } from './join-bytes.ts';

const MAGIC = 20000630;
const VERSION = 2;
const FLOAT = 2;
const ZIP = 3;
const INCREASING_Y = 0;
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

/** Everything before the table of offsets. RangeError for a name that is none or taken, or a number that is none. */
export function exrHeader(
  width_px: number,
  height_px: number,
  channelNames: readonly string[],
  { whiteLuminance_cd_m2, settings = {} }: ExrMeaning,
): Uint8Array<ArrayBuffer> {
  const window = int32(0, 0, width_px - 1, height_px - 1);
  const { red, green, blue, white } = PRIMARIES;
  const channels = channelNames.map((name) => joinBytes([text(name), int32(FLOAT, 0, 1, 1)]));
  const own = new Map<string, readonly [type: string, value: Uint8Array]>([
    ['channels', ['chlist', joinBytes([...channels, Uint8Array.of(0)])]],
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
    ['whiteLuminance', ['float', float32(positive(whiteLuminance_cd_m2, 'white luminance in cd/m²'))]],
  ]);
  const attributes = [...own].map(([name, [type, value]]) => attribute(name, type, value));
  for (const [name, value] of Object.entries(settings)) {
    const length = strToU8(name).length;
    if (own.has(name) || length < 1 || length > LONGEST_NAME_bytes || name.includes('\0')) {
      throw new RangeError(
        `EXR setting "${name}" must have a name of 1 to ${LONGEST_NAME_bytes} bytes that the file does not use itself`,
      );
    }
    if (typeof value === 'string') {
      attributes.push(attribute(name, 'string', strToU8(value)));
    } else if (Number.isFinite(Math.fround(value))) {
      attributes.push(attribute(name, 'float', float32(value)));
    } else {
      throw new RangeError(`EXR setting "${name}" is ${value}; it must be a finite number or a text`);
    }
  }
  return joinBytes([int32(MAGIC, VERSION), ...attributes, Uint8Array.of(0)]);
}

function attribute(name: string, type: string, value: Uint8Array): Uint8Array {
  return joinBytes([text(name), text(type), int32(value.length), value]);
}

function text(name: string): Uint8Array {
  return strToU8(`${name}\0`);
}

/** Whole numbers as the format stores them, little-endian. */
export function int32(...values: readonly number[]): Uint8Array {
  const bytes = new DataView(new ArrayBuffer(4 * values.length));
  for (const [i, value] of values.entries()) bytes.setInt32(4 * i, value, true);
  return new Uint8Array(bytes.buffer);
}

function float32(...values: readonly number[]): Uint8Array {
  const bytes = new DataView(new ArrayBuffer(4 * values.length));
  for (const [i, value] of values.entries()) bytes.setFloat32(4 * i, value, true);
  return new Uint8Array(bytes.buffer);
}
