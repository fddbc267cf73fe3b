import { channelMix } from '../../core/monochrome/channel-mix.ts';
import { developed } from '../../core/picture/develop.ts';
import { falseColourPicture } from '../../core/picture/false-colour.ts';
import { LUMINANCE_WEIGHTS } from '../../core/picture/linear-rgb.ts';
import { conversionOf, PLAIN } from '../../scene/monochrome/monochrome.ts';
import type { FrameCamera, FrameDesk, ProcessorFrame } from './frame-desk.ts';
import type { FrameProgress, FrameStore, Look } from './frame-state.ts';
import type { FrameSubject } from './keep-frame.ts';

/** Small, for the processor takes its time. */
const WIDTH_px = 192;
const SAMPLES = 64;

/** The frame made by the processor, on a canvas: where the graphics cannot, or cannot yet. */
export interface FrameWithoutGraphics {
  take(subject: FrameSubject | null): void;
  dispose(): void;
}

export function startFrameWithoutGraphics(
  canvas: HTMLCanvasElement,
  frame: FrameStore,
  desk: Pick<FrameDesk, 'draw' | 'stop'>,
  tell: (progress: FrameProgress) => void,
): FrameWithoutGraphics {
  let last: ProcessorFrame | null = null;
  let camera: FrameCamera | null = null;
  let turn = 0;

  const show = () => {
    if (!last || !camera) return;
    const { width_px, height_px } = last;
    const { look, smoothed } = frame.getState();
    const { rgb } = pictureOf(smoothed ? { ...last, rgb: last.quietRgb } : last, camera, look);
    canvas.width = width_px;
    canvas.height = height_px;
    const pixels = new ImageData(width_px, height_px);
    for (let i = 0; i < width_px * height_px; i++) {
      for (let c = 0; c < 3; c++) pixels.data[4 * i + c] = rgb[3 * i + c]!;
      pixels.data[4 * i + 3] = 255;
    }
    canvas.getContext('2d')?.putImageData(pixels, 0, 0);
  };

  const unsubscribe = frame.subscribe((now, before) => {
    if (now.look !== before.look || now.smoothed !== before.smoothed) show();
    if (now.paused && !before.paused) desk.stop();
  });

  return {
    take(subject) {
      camera = subject?.answer.camera ?? null;
      const mine = ++turn;
      if (!camera) {
        // What was drawn is of another scene, and setting its size empties a canvas.
        last = null;
        canvas.width = WIDTH_px;
        return;
      }
      const height_px = Math.max(1, Math.round(WIDTH_px / camera.aspect));
      desk
        .draw(WIDTH_px, height_px, SAMPLES, (drawn) => {
          if (mine !== turn) return;
          last = drawn;
          const { rgb: _, quietRgb: __, ...size } = drawn;
          tell({ ...size, stage: drawn.samples >= SAMPLES ? 'rests' : 'sampling' });
          show();
        })
        .catch((error: Error) => {
          // One that is ended is no failure.
          if (mine === turn) frame.setState({ failure: error.message });
        });
    },
    dispose() {
      turn++;
      desk.stop();
      unsubscribe();
    },
  };
}

/** The processor's frame as a look shows it. */
export function pictureOf(
  { rgb, ...size }: Pick<ProcessorFrame, 'width_px' | 'height_px' | 'rgb'>,
  camera: FrameCamera,
  look: Look,
) {
  const { zero_cd_m2, whiteBalance_K } = camera;
  const relative = { ...size, rgb: rgb.map((x) => x / zero_cd_m2) };
  if (look === 'stops') return falseColourPicture(relative);
  const grey = { picture: camera.monochrome, monochrome: camera.monochrome ?? PLAIN }[look as string];
  const monochrome = look === 'luminance' ? channelMix(LUMINANCE_WEIGHTS) : grey && conversionOf(grey);
  return developed(relative, { whiteBalance_K, monochrome });
}
