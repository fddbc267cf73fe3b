import { access, constants, rename, writeFile } from 'node:fs/promises';
import { dirname } from 'node:path';
import { zeroOf } from '../../core/exposure/zero.ts';
import { type Development, developed } from '../../core/picture/develop.ts';
import { falseColourPicture } from '../../core/picture/false-colour.ts';
import type { LinearPicture } from '../../core/picture/picture.ts';
import { exrOf } from '../../paperwork/picture-files/exr.ts';
import { pngOf } from '../../paperwork/picture-files/png.ts';
import { withScaleBar } from '../../paperwork/picture-files/scale-bar.ts';
import { pictureSettings, settingsComment } from '../../paperwork/picture-settings.ts';
import { developmentOf } from '../../scene/camera/development.ts';
import {
  aspectOf,
  calibrationOf,
  chosenCamera,
  exposureOf,
  lensOf,
} from '../../scene/camera/scene-camera.ts';
import { CAMERA_OPTION, type CommandLineCommand, type OptionValues, SETUP_OPTION } from '../command.ts';
import { openCorrectedSet, UNCORRECTED_OPTION } from '../corrected-set.ts';
import { DONE } from '../exit.ts';
import { type RenderedFrame, renderFrame } from '../frame/render-frame.ts';
import { numberOption } from '../number-option.ts';
import { UsageError } from '../usage-error.ts';

const DEFAULT_WIDTH_px = 640;
const DEFAULT_ERROR = 0.05;
const LARGEST_px = 8192;
/** Eight stops under middle grey: the noise floor, where noise does not count. */
const DARK_SHARE = 2 ** -8;

/** The frame that a camera would take, by the camera's exposure and nothing else. */
export const frame: CommandLineCommand = {
  name: 'frame',
  answers: 'the frame the camera would take, never brightened: .png, or .exr for linear light',
  options: {
    out: { type: 'string', value: 'FILE', help: 'picture to write, .png or .exr', short: 'o' },
    setup: SETUP_OPTION,
    camera: CAMERA_OPTION,
    size: {
      type: 'string',
      value: 'W[xH]',
      help: `pixels (${DEFAULT_WIDTH_px} wide, the camera's aspect, if left out)`,
    },
    samples: { type: 'string', value: 'N', help: 'so many samples a pixel, rounded up to a multiple of 4' },
    error: {
      type: 'string',
      value: 'SHARE',
      help: `or as many as bring the median error under this (${DEFAULT_ERROR})`,
    },
    stops: { type: 'boolean', help: 'false colour in stops from middle grey, with its scale' },
    raw: { type: 'boolean', help: 'the bare mean of the samples, noise and all' },
    uncorrected: UNCORRECTED_OPTION,
    seed: { type: 'string', value: 'N', help: 'of the random numbers (1 if left out)' },
  },
  async run(path, values, streams) {
    const file = wantedFile(values);
    await beSureOf(file);
    const samples = numberOption(values, 'samples', 1, 65_536);
    const error = numberOption(values, 'error', 0.001, 1) ?? DEFAULT_ERROR;
    const seed = numberOption(values, 'seed', 0, 2 ** 31) ?? 1;
    const { document, model } = await openCorrectedSet(path, values, streams);
    const camera = chosenCamera(document, values.camera as string | undefined);
    const [width_px, height_px] = wantedSize(values, aspectOf(camera));
    const exposure = exposureOf(camera);
    const { luminance_cd_m2 } = zeroOf(exposure, calibrationOf(document));

    const rendered = await renderFrame({
      model,
      lens: lensOf(camera),
      width_px,
      height_px,
      seed: Math.round(seed),
      until: samples === undefined ? { error } : { samples: Math.round(samples) },
      dark_cd_m2: luminance_cd_m2 * DARK_SHARE,
      filtered: values.raw !== true,
      progress: streams.err,
    });
    const picture = relativeTo(rendered, luminance_cd_m2);
    const settings = pictureSettings(
      { document, setup: (values.setup as string | undefined) ?? null, camera },
      {
        samples: { least: rendered.samples, most: rendered.samples },
        seed: Math.round(seed),
        filtered: values.raw !== true,
        medianError: rendered.medianError,
      },
    );
    await writeWhole(
      file,
      bytesOf(file, picture, settings, developmentOf(camera), luminance_cd_m2, values.stops === true),
    );
    streams.out(`${file}: ${width_px} × ${height_px}, ${settings.Samples}`);
    return DONE;
  },
};

function wantedFile(values: OptionValues): string {
  const file = values.out;
  if (typeof file !== 'string') throw new UsageError('name the picture to write: -o frame.png');
  if (!/\.(png|exr)$/i.test(file)) throw new UsageError(`-o ${file}: give a name that ends in .png or .exr`);
  if (values.stops && /\.exr$/i.test(file))
    throw new UsageError('--stops is for .png; an .exr holds linear light');
  return file;
}

/** A frame takes minutes: whether it can be written is asked before. */
async function beSureOf(file: string): Promise<void> {
  try {
    await access(dirname(file), constants.W_OK);
  } catch {
    throw new UsageError(`-o ${file}: ${dirname(file)} is not a folder that can be written to`);
  }
}

function wantedSize(values: OptionValues, aspect: number): readonly [number, number] {
  const text = (values.size as string | undefined) ?? String(DEFAULT_WIDTH_px);
  const match = /^(\d{1,5})(?:x(\d{1,5}))?$/.exec(text);
  const width = Number(match?.[1]);
  const height = match?.[2] === undefined ? Math.max(1, Math.round(width / aspect)) : Number(match[2]);
  if (width >= 1 && height >= 1 && width <= LARGEST_px && height <= LARGEST_px) return [width, height];
  throw new UsageError(
    `--size ${text}: give a width such as 640, or 640x360, at most ${LARGEST_px} pixels a side`,
  );
}

function relativeTo(rendered: RenderedFrame, zero_cd_m2: number): LinearPicture {
  const { width_px, height_px, rgb } = rendered;
  return { width_px, height_px, rgb: rgb.map((value) => value / zero_cd_m2) };
}

function bytesOf(
  file: string,
  picture: LinearPicture,
  settings: Readonly<Record<string, string>>,
  development: Development,
  zero_cd_m2: number,
  stops: boolean,
): Uint8Array {
  if (/\.exr$/i.test(file)) {
    const comments = settingsComment(settings);
    return exrOf(picture, { whiteLuminance_cd_m2: zero_cd_m2, settings: { comments } });
  }
  return pngOf(stops ? withScaleBar(falseColourPicture(picture)) : developed(picture, development), settings);
}

/** Under another name first: a picture that is there is whole. */
async function writeWhole(file: string, bytes: Uint8Array): Promise<void> {
  const unfinished = `${file}.part`;
  try {
    await writeFile(unfinished, bytes);
    await rename(unfinished, file);
  } catch (error) {
    throw new UsageError(`-o ${file}: ${(error as Error).message}`);
  }
}
