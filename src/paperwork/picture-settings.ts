import { type CameraExposure, zeroOf } from '../core/exposure/zero.ts';
import { calibrationOf, DEFAULT_WHITE_BALANCE_K, exposureOf } from '../scene/camera/scene-camera.ts';
import { monochromeWords } from '../scene/monochrome/monochrome.ts';
import type { Camera } from '../scene/schema/camera.ts';
import type { SceneDocument } from '../scene/schema/document.ts';
import { shutterText } from './exposure-sheet.ts';

/** How a picture was sampled. */
export interface PictureSampling {
  /** Samples a pixel: where it has fewest and where most. */
  readonly samples: { readonly least: number; readonly most: number };
  readonly seed: number;
  /** Whether noise was filtered out. */
  readonly filtered: boolean;
  /** Median over the pixels of standard error over luminance; null where too few samples tell none. */
  readonly medianError: number | null;
}

export interface PictureSource {
  /** In the setup that the picture shows. */
  readonly document: SceneDocument;
  /** Null for the scene as it is without one. */
  readonly setup: string | null;
  readonly camera: Camera;
  /** Names of lamps that are lit in the scene and left out of the picture. */
  readonly without?: readonly string[];
}

/** What a picture file says of how its picture was made, by keyword. */
export function pictureSettings(
  { document, setup, camera, without = [] }: PictureSource,
  sampling: PictureSampling,
): Readonly<Record<string, string>> {
  const exposure = exposureOf(camera);
  const { luminance_cd_m2 } = zeroOf(exposure, calibrationOf(document));
  const { monochrome } = camera;
  return {
    Title: document.title,
    Software: 'Keyfall',
    Setup: setup ?? 'base',
    Camera: camera.id,
    Exposure: exposureText(exposure),
    WhiteBalance: `${camera.whiteBalance_K ?? DEFAULT_WHITE_BALANCE_K} K`,
    ...(monochrome && { Monochrome: monochromeWords(monochrome) }),
    ...(without.length > 0 && { LampsLeftOut: without.join(', ') }),
    MiddleGrey: `${luminance_cd_m2} cd/m²`,
    Samples: samplingText(sampling),
  };
}

function exposureText({ fNumber, shutter_s, iso, nd_stops, loss_stops }: CameraExposure): string {
  const loss = loss_stops > 0 ? `, lens loss ${loss_stops}` : '';
  return `f/${fNumber}, ${shutterText(shutter_s)}, ISO ${iso}, ND ${nd_stops}${loss}`;
}

/** `64 a pixel, seed 1, noise left in, median error 0.0312`. */
export function samplingText({ samples, seed, filtered, medianError }: PictureSampling): string {
  const { least, most } = samples;
  return [
    `${least === most ? most : `${least} to ${most}`} a pixel`,
    `seed ${seed}`,
    filtered ? 'noise filtered' : 'noise left in',
    ...(medianError === null ? [] : [`median error ${medianError.toFixed(4)}`]),
  ].join(', ');
}

/** The settings as the one comment of a file that has no keywords, a line each. */
export function settingsComment(settings: Readonly<Record<string, string>>): string {
  return Object.entries(settings)
    .map(([keyword, words]) => `${keyword}: ${words}`)
    .join('\n');
}
