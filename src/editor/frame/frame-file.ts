import { zeroOf } from '../../core/exposure/zero.ts';
import { developed } from '../../core/picture/develop.ts';
import { falseColourPicture } from '../../core/picture/false-colour.ts';
import { newExrWriter } from '../../paperwork/picture-files/exr.ts';
import { newPngWriter } from '../../paperwork/picture-files/png.ts';
import { scaleBar } from '../../paperwork/picture-files/scale-bar.ts';
import {
  type PictureSampling,
  type PictureSource,
  pictureSettings,
  settingsComment,
} from '../../paperwork/picture-settings.ts';
import { developmentOf } from '../../scene/camera/development.ts';
import { calibrationOf, exposureOf } from '../../scene/camera/scene-camera.ts';
import { PLAIN } from '../../scene/monochrome/monochrome.ts';
import type { Camera } from '../../scene/schema/camera.ts';
import type { Look } from './frame-state.ts';

/** Looks that show light. */
export type LightLook = Exclude<Look, 'normals' | 'things'>;

/** What a picture file can be: what the frame shows of light, or the light itself. */
export type ExportKind = { readonly file: 'png'; readonly look: LightLook } | { readonly file: 'exr' };

/** A frame that is written to a file, as the frame is shown. */
export interface FrameFileOrder extends PictureSource {
  readonly kind: ExportKind;
  readonly width_px: number;
  readonly height_px: number;
}

/** A picture file of a frame in the making. */
export interface FrameFile {
  /** The next rows from the top, linear RGB, cd/m². */
  rows(rgb: Float32Array): void;
  /** RangeError before all rows are there. */
  finish(sampling: PictureSampling): Blob;
}

/** RangeError unless both sides are whole numbers above zero. */
export function newFrameFile(order: FrameFileOrder): FrameFile {
  const { document, camera, kind } = order;
  const zero_cd_m2 = zeroOf(exposureOf(camera), calibrationOf(document)).luminance_cd_m2;
  const { rows, finish } = kind.file === 'exr' ? exrFile(order, zero_cd_m2) : pngFile(order, kind.look);
  return { rows: (rgb) => rows(rgb.map((x) => x / zero_cd_m2)), finish };
}

function exrFile(order: FrameFileOrder, zero_cd_m2: number): FrameFile {
  const writer = newExrWriter(order.width_px, order.height_px);
  return {
    rows: (relative) => writer.rows(relative),
    finish(sampling) {
      const comments = settingsComment(pictureSettings(order, sampling));
      const parts = writer.finish({ whiteLuminance_cd_m2: zero_cd_m2, settings: { comments } });
      return new Blob(parts, { type: 'image/x-exr' });
    },
  };
}

function pngFile(order: FrameFileOrder, look: LightLook): FrameFile {
  const { camera, width_px, height_px } = order;
  const shown = cameraIn(look, camera);
  const development = developmentOf(shown);
  const bar = look === 'stops' ? scaleBar(width_px) : null;
  const writer = newPngWriter(width_px, height_px + (bar?.height_px ?? 0));
  return {
    rows(rgb) {
      const picture = { width_px, height_px: rgb.length / 3 / width_px, rgb };
      writer.rows((bar ? falseColourPicture(picture) : developed(picture, development)).rgb);
    },
    finish(sampling) {
      if (bar) writer.rows(bar.rgb);
      const parts = writer.finish(pictureSettings({ ...order, camera: shown }, sampling));
      return new Blob(parts, { type: 'image/png' });
    },
  };
}

/** A camera that is set to monochrome shows grey in the plain look too. */
function cameraIn(look: LightLook, camera: Camera): Camera {
  if (look === 'monochrome') return { ...camera, monochrome: camera.monochrome ?? PLAIN };
  return look === 'luminance' ? { ...camera, monochrome: PLAIN } : camera;
}
