import type { Texels } from '../../preview/pack/texels.ts';
import type { Mix } from '../../preview/renderer/light-keeping.ts';
import type { PreviewScene } from '../../preview/renderer/preview-scene.ts';
import { createRenderer } from '../../preview/renderer/renderer.ts';
import type { FrameCamera } from './frame-desk.ts';
import { type FrameSize, frameSize } from './frame-size.ts';
import type { FrameProgress, FrameState } from './frame-state.ts';
import { newPromptTimer } from './prompt-timer.ts';
import { receivedScene, type SentScene } from './sent-scene.ts';
import { showingOf } from './showing-of.ts';

/** Beyond these a frame is left as it is: nobody would see more of it. */
const ENOUGH_SAMPLES = 4096;
const ENOUGH_NOISE = 0.004;
/** Time for one piece of drawing: nothing else has to wait for longer. */
const PIECE_ms = 16;
/** At which samples the noise is measured: that waits for the card. */
const MEASURED_EVERY = 64;
const MARK_px = 4;

/** What is to be drawn. */
export interface CardSubject {
  readonly scene: SentScene;
  readonly camera: FrameCamera;
  readonly mix: Mix;
}

interface WholeSubject extends CardSubject {
  readonly scene: PreviewScene;
}

/** What changes the way the light is shown, not the light. */
const SHOWN = ['look', 'marksEnds', 'smoothed'] as const;

/** How the page wants it. */
export interface CardWishes extends Pick<FrameState, (typeof SHOWN)[number] | 'paused'> {
  /** Nobody sees the page. */
  readonly hidden: boolean;
}

/** What the page is told of it. */
export type CardNews =
  | { readonly progress: FrameProgress }
  | { readonly failure: string }
  /** The first picture since it was told to draw nothing is on the screen; how often it has been told so. */
  | { readonly drawnSince: number };

/** A frame made by the graphics card on a canvas. Knows nothing of the page, so that it may work in a worker. */
export interface FrameOnCard {
  /** Null: nothing, for what is drawn is of another scene. */
  take(subject: CardSubject | null): void;
  /** The same scene with its lamps mixed otherwise. */
  remix(mix: Mix): void;
  wish(wishes: CardWishes): void;
  /** How large the canvas is on the screen, in its own pixels. */
  resize(width_px: number, height_px: number): void;
  /** The frame as it is shown, as a PNG; null where it could not be made. */
  picture(): Promise<Blob | null>;
  dispose(): void;
}

/** @throws GraphicsUnable where this browser's graphics cannot. */
export function startFrameOnCard(
  canvas: HTMLCanvasElement | OffscreenCanvas,
  asWished: CardWishes,
  tell: (news: CardNews) => void,
): FrameOnCard {
  const renderer = createRenderer(canvas, { byLamp: true });
  let wishes = asWished;
  let subject: WholeSubject | null = null;
  let textures: Readonly<Record<string, Texels>> = {};
  /** Nothing of it has been on the screen yet. */
  let unseen = false;
  /** What comes after it, once it has: a scene that changes all the while would never be seen, else. */
  let next: WholeSubject | null = null;
  /** How often there was nothing to be drawn. */
  let blanks = 0;
  let panel = { width_px: 0, height_px: 0 };
  let size: FrameSize | null = null;
  let camera: FrameCamera | null = null;
  let shown = -1;
  let noise = Number.NaN;
  let progress: FrameProgress | null = null;
  let failed = false;
  let disposed = false;

  const atRest = () =>
    disposed ||
    wishes.hidden ||
    wishes.paused ||
    failed ||
    !subject ||
    panel.width_px === 0 ||
    renderer.samples() >= ENOUGH_SAMPLES ||
    noise <= ENOUGH_NOISE;

  const tellProgress = (stage: FrameProgress['stage']) => {
    if (!size) return;
    const [width_px, height_px] = size;
    const now = { samples: renderer.samples(), noise, width_px, height_px, stage };
    const before = progress;
    if (
      before &&
      Object.entries(now).every(([key, value]) => Object.is(before[key as keyof FrameProgress], value))
    )
      return;
    progress = now;
    tell({ progress });
  };

  /** What there is, as it is to be shown now. */
  const show = () => {
    if (!subject) return;
    const { look, smoothed, marksEnds } = wishes;
    const mark_px = marksEnds ? Math.max(2, Math.round((MARK_px * canvas.width) / 960)) : undefined;
    if (!renderer.show(showingOf(subject.camera, look, smoothed, mark_px))) return;
    if (shown < 0) {
      const drawnSince = blanks;
      onceOnScreen(() => tell({ drawnSince }));
    }
    shown = renderer.edition();
    unseen = false;
  };

  /** The camera, and as many pixels as this machine is fast enough for. */
  const aim = () => {
    if (!subject || panel.width_px === 0 || wishes.paused) return;
    // A card is fast until it is known not to be: what is seen first is coarse anyway.
    const speed = renderer.speed_px_per_ms() ?? (renderer.onCard ? Number.POSITIVE_INFINITY : null);
    const wanted = frameSize(panel, speed, size);
    if (subject.camera === camera && wanted[0] === size?.[0] && wanted[1] === size[1]) return;
    ({ camera } = subject);
    size = wanted;
    noise = Number.NaN;
    renderer.setCamera(camera.lens, ...wanted);
  };

  /** As many pixels as there is room for; a held frame keeps its own until it goes on. */
  const fillPanel = () => {
    if (wishes.paused) return;
    if (canvas.width !== panel.width_px || canvas.height !== panel.height_px) {
      canvas.width = panel.width_px;
      canvas.height = panel.height_px;
    }
    aim();
    show();
    go();
  };

  const draw = (of: WholeSubject) => {
    subject = of;
    next = null;
    unseen = true;
    failed = false;
    noise = Number.NaN;
    renderer.setScene(of.scene, of.mix);
    aim();
    if (renderer.edition() !== shown) show();
    go();
  };

  const piece = () => {
    if (atRest()) {
      tellProgress('rests');
      return;
    }
    try {
      const before = renderer.samples();
      const edition = renderer.edition();
      const stage = renderer.renderSome(PIECE_ms);
      const samples = renderer.samples();
      if (samples !== before && (Number.isNaN(noise) || isMeasuredAt(samples))) noise = renderer.noise();
      // The first light tells how fast this machine is, the first whole sample tells it well.
      if ((shown < 0 && renderer.edition() !== edition) || (samples === 1 && before === 0)) aim();
      if (renderer.edition() !== shown) show();
      if (next && (!unseen || stage === 'building')) draw(next);
      // Some drivers build at the first draw: nothing is ready before there is something to show.
      tellProgress(stage === 'building' || shown < 0 ? 'building' : 'sampling');
    } catch (error) {
      failed = true;
      tell({ failure: (error as Error).message });
      return;
    }
    go();
  };

  const timer = newPromptTimer(piece);
  const go = timer.start;
  canvas.addEventListener('webglcontextrestored', go);

  return {
    take(given) {
      next = null;
      if (!given) {
        subject = null;
        shown = -1;
        blanks++;
        return;
      }
      // The next one leaves out what was in this one, drawn or not.
      const scene = receivedScene(given.scene, textures);
      textures = scene.textures;
      const whole = { ...given, scene };
      if (unseen && !atRest()) next = whole;
      else draw(whole);
    },
    remix(mix) {
      if (next) next = { ...next, mix };
      if (!subject) return;
      noise = Number.NaN;
      renderer.setMix(mix);
      show();
      go();
    },
    wish(wanted) {
      const before = wishes;
      wishes = wanted;
      if (SHOWN.some((key) => wanted[key] !== before[key])) show();
      if (before.paused && !wanted.paused) fillPanel();
      else go();
    },
    resize(width_px, height_px) {
      panel = { width_px, height_px };
      fillPanel();
    },
    picture() {
      // A canvas keeps its drawing only until the browser has shown it.
      show();
      if ('convertToBlob' in canvas) return canvas.convertToBlob();
      return new Promise((resolve) => canvas.toBlob(resolve));
    },
    dispose() {
      disposed = true;
      timer.dispose();
      canvas.removeEventListener('webglcontextrestored', go);
      renderer.dispose();
    },
  };
}

/** What is drawn now is handed to the screen at the end of the next frame, of a worker as of a page. */
function onceOnScreen(work: () => void): void {
  requestAnimationFrame(() => requestAnimationFrame(work));
}

/** At powers of two, and then at equal distances. */
function isMeasuredAt(samples: number): boolean {
  return samples >= 4 && ((samples & (samples - 1)) === 0 || samples % MEASURED_EVERY === 0);
}
