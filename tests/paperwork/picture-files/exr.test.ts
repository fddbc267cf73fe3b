import { FloatType } from 'three';
import { EXRLoader } from 'three/examples/jsm/loaders/EXRLoader.js';
import { describe, expect, it } from 'vitest';
import type { LinearPicture } from '../../../src/core/picture/picture.ts';
import { exrOf, newExrWriter } from '../../../src/paperwork/picture-files/exr.ts';

/** An independent reader. It turns rows upside down and adds an alpha of 1. */
function read(bytes: Uint8Array) {
  const buffer = Uint8Array.from(bytes).buffer;
  const { width, height, data, header } = new EXRLoader().setDataType(FloatType).parse(buffer) as unknown as {
    width: number;
    height: number;
    data: Float32Array;
    header: Record<string, unknown>;
  };
  const rgb: number[] = [];
  for (let y = height - 1; y >= 0; y--) {
    for (let x = 0; x < width; x++) rgb.push(...data.subarray(4 * (y * width + x), 4 * (y * width + x) + 3));
  }
  return { width, height, rgb, header };
}

function smooth(width_px: number, height_px: number): LinearPicture {
  const rgb = Float32Array.from(
    { length: 3 * width_px * height_px },
    (_, i) => 2 ** ((i % 97) / 7 - 6) - 0.01,
  );
  return { width_px, height_px, rgb };
}

/** Bits so mixed that no compression makes them smaller. */
function noise(width_px: number, height_px: number): LinearPicture {
  let seed = 20000630;
  const bits = Uint32Array.from({ length: 3 * width_px * height_px }, () => {
    seed ^= seed << 13;
    seed ^= seed >>> 17;
    seed ^= seed << 5;
    return seed & 0xbfffffff;
  });
  return { width_px, height_px, rgb: new Float32Array(bits.buffer) };
}

describe('an OpenEXR file', () => {
  it.each([
    [1, 1],
    [5, 15],
    [7, 16],
    [3, 17],
    [40, 50],
  ])('of %d × %d px comes back bit for bit', (width, height) => {
    for (const picture of [smooth(width, height), noise(width, height)]) {
      const back = read(exrOf(picture, { whiteLuminance_cd_m2: 1 }));
      expect([back.width, back.height]).toEqual([width, height]);
      expect(back.rgb).toEqual([...picture.rgb]);
    }
  });

  it('is smaller than its pixels where it can be, and never larger by more than its frame', () => {
    const raw = 3 * 4 * 64 * 64;
    expect(exrOf(smooth(64, 64), { whiteLuminance_cd_m2: 1 }).length).toBeLessThan(raw / 2);
    expect(exrOf(noise(64, 64), { whiteLuminance_cd_m2: 1 }).length).toBeLessThan(raw + 700);
  });

  it('says what its numbers mean', () => {
    const { header } = read(
      exrOf(smooth(6, 4), {
        whiteLuminance_cd_m2: 12.5,
        settings: { comments: 'Последняя лодка, L₀', expTime: 0.02, aperture: 4, isoSpeed: 800 },
      }),
    );
    // published: IEC 61966-2-1's primaries and white
    const chromaticities = header.chromaticities as Record<string, number>;
    expect(Object.values(chromaticities).map((v) => Number(v.toFixed(6)))).toEqual([
      0.64, 0.33, 0.3, 0.6, 0.15, 0.06, 0.3127, 0.329,
    ]);
    expect(header).toMatchObject({
      whiteLuminance: 12.5,
      comments: 'Последняя лодка, L₀',
      expTime: Math.fround(0.02),
      aperture: 4,
      isoSpeed: 800,
      compression: 'ZIP_COMPRESSION',
      lineOrder: 'INCREASING_Y',
      pixelAspectRatio: 1,
      dataWindow: { xMin: 0, yMin: 0, xMax: 5, yMax: 3 },
      displayWindow: { xMin: 0, yMin: 0, xMax: 5, yMax: 3 },
      screenWindowCenter: [0, 0],
      screenWindowWidth: 1,
    });
    const channels = header.channels as { name: string; pixelType: number }[];
    expect(channels.map(({ name, pixelType }) => [name, pixelType])).toEqual([
      ['B', 2],
      ['G', 2],
      ['R', 2],
    ]);
  });

  it('begins, and points to its blocks, as the file layout says', () => {
    const file = Buffer.from(exrOf(smooth(4, 40), { whiteLuminance_cd_m2: 1 }));
    // published: OpenEXR File Layout: magic number 76 2f 31 01, version 2, no flags, then the first attribute's name and type
    expect(file.subarray(0, 24).toString('latin1')).toBe('\x76\x2f\x31\x01\x02\0\0\0channels\0chlist\0');
    // derived: 40 lines are blocks of 16, 16 and 8; each starts with its line and size, and they fill the file
    const last = Buffer.from('screenWindowWidth\0float\0\x04\0\0\0\0\0\x80\x3f', 'latin1');
    const luminance = Buffer.from('whiteLuminance\0float\0\x04\0\0\0\0\0\x80\x3f\0', 'latin1');
    const table = file.indexOf(Buffer.concat([last, luminance])) + last.length + luminance.length;
    let expected = table + 3 * 8;
    for (const [i, line] of [0, 16, 32].entries()) {
      const offset = Number(file.readBigUInt64LE(table + 8 * i));
      expect(offset).toBe(expected);
      expect(file.readInt32LE(offset)).toBe(line);
      expected = offset + 8 + file.readInt32LE(offset + 4);
    }
    expect(expected).toBe(file.length);
  });

  it('takes float64 pixels as the nearest float32', () => {
    const picture = { width_px: 1, height_px: 1, rgb: Float64Array.of(0.1, 1e-50, 3) };
    expect(read(exrOf(picture, { whiteLuminance_cd_m2: 1 })).rgb).toEqual([Math.fround(0.1), 0, 3]);
  });

  it.each([
    [
      { channels: 'x' },
      'EXR setting "channels" must have a name of 1 to 31 bytes that the file does not use itself',
    ],
    [{ '': 1 }, 'EXR setting ""'],
    [{ ['я'.repeat(16)]: 1 }, 'must have a name of 1 to 31 bytes'],
    [{ 'a\0b': 1 }, 'must have a name of 1 to 31 bytes'],
    [{ isoSpeed: Number.NaN }, 'EXR setting "isoSpeed" is NaN; it must be a finite number or a text'],
    [{ isoSpeed: 1e300 }, 'EXR setting "isoSpeed" is 1e+300'],
  ])('refuses %j', (settings, message) => {
    expect(() => exrOf(smooth(1, 1), { whiteLuminance_cd_m2: 1, settings })).toThrow(message);
  });

  it('refuses a white of no luminance and a picture whose sizes disagree', () => {
    expect(() => exrOf(smooth(1, 1), { whiteLuminance_cd_m2: 0 })).toThrow('white luminance in cd/m² is 0');
    expect(() => exrOf({ ...smooth(2, 2), height_px: 3 }, { whiteLuminance_cd_m2: 1 })).toThrow(
      'must have 18',
    );
  });

  it.each([1, 5, 16, 23])('of rows that came %d at a time is the same file', (step) => {
    const { rgb } = smooth(9, 50);
    const writer = newExrWriter(9, 50);
    for (let at = 0; at < rgb.length; at += 27 * step) writer.rows(rgb.subarray(at, at + 27 * step));
    const whole = exrOf({ width_px: 9, height_px: 50, rgb }, { whiteLuminance_cd_m2: 2 });
    expect(Buffer.concat(writer.finish({ whiteLuminance_cd_m2: 2 })).equals(Buffer.from(whole))).toBe(true);
  });

  it('is not finished before all rows are there', () => {
    const writer = newExrWriter(2, 20);
    writer.rows(new Float32Array(6 * 17));
    expect(() => writer.finish({ whiteLuminance_cd_m2: 1 })).toThrow('17 of 20 rows are there');
    expect(() => writer.rows(new Float32Array(6 * 4))).toThrow('row 21 of a picture that is 20 px high');
  });
});
