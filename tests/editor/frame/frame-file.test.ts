import { FloatType } from 'three';
import { EXRLoader } from 'three/examples/jsm/loaders/EXRLoader.js';
import { describe, expect, it } from 'vitest';
import { developed } from '../../../src/core/picture/develop.ts';
import { falseColourPicture } from '../../../src/core/picture/false-colour.ts';
import { LUMINANCE_WEIGHTS } from '../../../src/core/picture/linear-rgb.ts';
import { type LightLook, newFrameFile } from '../../../src/editor/frame/frame-file.ts';
import { conversionOf } from '../../../src/scene/monochrome/monochrome.ts';
import { readPng } from '../../paperwork/picture-files/png-reader.ts';
import { edited, opened, smallScene } from '../../support/scenes.ts';

const WIDTH = 60;
const HEIGHT = 8;
/** derived: K·N²/(t·S) = 12.5·16·50/800 */
const ZERO_cd_m2 = 12.5;
const rgb = Float32Array.from({ length: 3 * WIDTH * HEIGHT }, (_, i) => ZERO_cd_m2 * 2 ** ((i % 31) / 3 - 7));
const relative = { width_px: WIDTH, height_px: HEIGHT, rgb: rgb.map((x) => x / ZERO_cd_m2) };
const sampling = { samples: { least: 8, most: 8 }, seed: 1, filtered: false, medianError: 0.25 };

async function written(kind: Parameters<typeof newFrameFile>[0]['kind'], changes = {}): Promise<Blob> {
  const document = opened(edited(smallScene(), { 'cameras.0.whiteBalance_K': 4300, ...changes }));
  const camera = document.cameras![0]!;
  const file = newFrameFile({
    document,
    setup: '2',
    camera,
    kind,
    width_px: WIDTH,
    height_px: HEIGHT,
  });
  file.rows(rgb.subarray(0, 9 * WIDTH));
  file.rows(rgb.subarray(9 * WIDTH));
  return file.finish(sampling);
}

const png = async (look: LightLook, changes = {}) =>
  readPng(new Uint8Array(await (await written({ file: 'png', look }, changes)).arrayBuffer()));

describe('a frame written to a file', () => {
  it('is developed by the white balance of its camera, and says how it was made', async () => {
    const read = await png('picture');
    expect(read.rgb).toEqual([...developed(relative, { whiteBalance_K: 4300 }).rgb]);
    expect(Object.fromEntries(read.texts)).toMatchObject({
      Setup: '2',
      WhiteBalance: '4300 K',
      MiddleGrey: '12.5 cd/m²',
      Samples: '8 a pixel, seed 1, noise left in, median error 0.2500',
    });
    expect(read.texts.has('Monochrome')).toBe(false);
  });

  it('has its scale beneath in false colour', async () => {
    const { rgb: read, height } = await png('stops');
    expect(height).toBeGreaterThan(HEIGHT);
    expect(read.slice(0, 3 * WIDTH * HEIGHT)).toEqual([...falseColourPicture(relative).rgb]);
  });

  it.each([
    ['picture', { filter: 'red' }, { filter: 'red' }, 'red filter'],
    ['monochrome', { filter: 'red' }, { filter: 'red' }, 'red filter'],
    ['monochrome', undefined, { weights: LUMINANCE_WEIGHTS }, 'plain luminance'],
    ['luminance', { filter: 'red' }, { weights: LUMINANCE_WEIGHTS }, 'plain luminance'],
  ] as const)('is grey as %s of a camera with %j', async (look, set, shown, words) => {
    const read = await png(look, set ? { 'cameras.0.monochrome': set } : {});
    const monochrome = conversionOf(shown as Parameters<typeof conversionOf>[0]);
    expect(read.rgb).toEqual([...developed(relative, { whiteBalance_K: 4300, monochrome }).rgb]);
    expect(read.texts.get('Monochrome')).toBe(words);
  });

  it('is linear light relative to middle grey in an EXR', async () => {
    const blob = await written({ file: 'exr' });
    expect(blob.type).toBe('image/x-exr');
    const { width, height, data, header } = new EXRLoader()
      .setDataType(FloatType)
      .parse(await blob.arrayBuffer()) as unknown as {
      width: number;
      height: number;
      data: Float32Array;
      header: { whiteLuminance: number; comments: string };
    };
    expect([width, height, header.whiteLuminance]).toEqual([WIDTH, HEIGHT, ZERO_cd_m2]);
    expect(header.comments).toContain('Setup: 2\nCamera: a\n');
    // The reader turns rows upside down and adds an alpha.
    const last = 4 * (HEIGHT - 1) * WIDTH;
    expect([...data.subarray(last, last + 3)]).toEqual([...relative.rgb.subarray(0, 3)]);
  });
});
