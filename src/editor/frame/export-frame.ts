import { zeroOf } from '../../core/exposure/zero.ts';
import { DEFAULT_TONE_RANGE } from '../../core/picture/tone-curve.ts';
import { browserTurn } from '../../preview/export/browser-turn.ts';
import { type PictureOrder, renderPicture } from '../../preview/export/render-picture.ts';
import { calibrationOf, exposureOf, lensOf } from '../../scene/camera/scene-camera.ts';
import { type FrameFileOrder, newFrameFile } from './frame-file.ts';

/** A camera's frame to be rendered and written to a file; plain data. */
export interface FrameExport
  extends FrameFileOrder,
    Pick<PictureOrder, 'scene' | 'mix' | 'width_px' | 'height_px' | 'until'> {
  readonly seed: number;
}

/** Renders the frame and writes it, band by band. Rejects as `renderPicture` does. */
export async function exportFrame(
  order: FrameExport,
  progress: (share: number) => void,
  signal?: AbortSignal,
): Promise<Blob> {
  const { document, camera, scene, width_px, height_px, until, seed } = order;
  const zero_cd_m2 = zeroOf(exposureOf(camera), calibrationOf(document)).luminance_cd_m2;
  const file = newFrameFile(order);
  const picture = await renderPicture(
    {
      scene,
      ...(order.mix && { mix: order.mix }),
      lens: lensOf(camera),
      width_px,
      height_px,
      until,
      dark_cd_m2: zero_cd_m2 * 2 ** DEFAULT_TONE_RANGE.floor_stops,
      seed,
    },
    {
      rows: (rgb) => inSlices(rgb, width_px, file.rows, signal),
      progress,
    },
    signal,
  );
  const { samples, noise } = picture;
  return file.finish({ samples, seed, filtered: false, medianError: noise });
}

/** So many pixels are developed and packed in one go, between which the browser may have its turn. */
const SLICE_px = 2 ** 14;
const BUDGET_ms = 25;

async function inSlices(
  rgb: Float32Array,
  width_px: number,
  take: (rows: Float32Array) => void,
  signal: AbortSignal | undefined,
): Promise<void> {
  const step = 3 * width_px * Math.max(1, Math.floor(SLICE_px / width_px));
  let since_ms = performance.now();
  for (let at = 0; at < rgb.length; at += step) {
    take(rgb.subarray(at, at + step));
    if (performance.now() - since_ms < BUDGET_ms) continue;
    await browserTurn();
    signal?.throwIfAborted();
    since_ms = performance.now();
  }
}
