import { createRenderer } from '../../preview/renderer/renderer.ts';
import type { EditorStore } from '../store/editor-store.ts';
import { type FrameSize, frameSize } from './frame-size.ts';
import type { FrameStore } from './frame-state.ts';
import { type FrameSubject, mixWithout } from './keep-frame.ts';
import { newPromptTimer } from './prompt-timer.ts';
import { showingOf } from './showing-of.ts';

/** Beyond these a frame is left as it is: nobody would see more of it. */
const ENOUGH_SAMPLES = 4096;
const ENOUGH_NOISE = 0.004;
/** Time for one piece of drawing: nothing else has to wait for longer. */
const PIECE_ms = 16;
/** At which samples the noise is measured: that waits for the card. */
const MEASURED_EVERY = 64;
const MARK_px = 4;

/** What changes the way the light is shown, not the light. */
const SHOWN = ['look', 'marksEnds', 'smoothed'] as const;

/** A frame of the scene in the store, made by the graphics card on a canvas. */
export interface FrameOnCard {
  take(subject: FrameSubject | null): void;
  /** How large the canvas is on the screen, in its own pixels. */
  resize(width_px: number, height_px: number): void;
  dispose(): void;
}

/** @throws GraphicsUnable where this browser's graphics cannot. */
export function startFrameOnCard(
  canvas: HTMLCanvasElement,
  store: EditorStore,
  frame: FrameStore,
): FrameOnCard {
  const renderer = createRenderer(canvas, { byLamp: true });
  let subject: FrameSubject | null = null;
  /** Nothing of it has been on the screen yet. */
  let unseen = false;
  /** What comes after it, once it has: a scene that changes all the while would never be seen, else. */
  let next: FrameSubject | null = null;
  let panel = { width_px: 0, height_px: 0 };
  let size: FrameSize | null = null;
  let camera: FrameSubject['answer']['camera'] = null;
  let shown = -1;
  let noise = Number.NaN;
  let disposed = false;

  const atRest = () => {
    const { paused, failure } = frame.getState();
    return (
      disposed ||
      document.hidden ||
      paused ||
      failure !== null ||
      !subject ||
      panel.width_px === 0 ||
      renderer.samples() >= ENOUGH_SAMPLES ||
      noise <= ENOUGH_NOISE
    );
  };

  const tell = (stage: 'building' | 'sampling' | 'rests') => {
    if (!size) return;
    const [width_px, height_px] = size;
    const samples = renderer.samples();
    const before = frame.getState().progress;
    if (
      before?.stage === stage &&
      before.samples === samples &&
      Object.is(before.noise, noise) &&
      before.width_px === width_px
    )
      return;
    frame.setState({ progress: { samples, noise, width_px, height_px, stage } });
  };

  /** What there is, as it is to be shown now. */
  const show = () => {
    const of = subject?.answer.camera;
    if (!of) return;
    const { look, smoothed, marksEnds } = frame.getState();
    const mark_px = marksEnds ? Math.max(2, Math.round((MARK_px * canvas.width) / 960)) : undefined;
    if (!renderer.show(showingOf(of, look, smoothed, mark_px))) return;
    canvas.style.visibility = '';
    shown = renderer.edition();
    unseen = false;
  };

  /** A picture of another scene must not be taken for this one's. */
  const blank = () => {
    // Emptying the canvas would wait for the card, which may be busy with building.
    canvas.style.visibility = 'hidden';
    shown = -1;
  };

  /** The camera, and as many pixels as this machine is fast enough for. */
  const aim = () => {
    const of = subject?.answer.camera;
    if (!of || panel.width_px === 0 || frame.getState().paused) return;
    const next = frameSize(panel, renderer.speed_px_per_ms(), size);
    if (of === camera && next[0] === size?.[0] && next[1] === size[1]) return;
    camera = of;
    size = next;
    noise = Number.NaN;
    renderer.setCamera(of.lens, ...next);
  };

  /** As many pixels as there is room for; a held frame keeps its own until it goes on. */
  const fillPanel = () => {
    if (frame.getState().paused) return;
    if (canvas.width !== panel.width_px || canvas.height !== panel.height_px) {
      canvas.width = panel.width_px;
      canvas.height = panel.height_px;
    }
    aim();
    show();
    go();
  };

  const draw = (of: FrameSubject) => {
    subject = of;
    next = null;
    unseen = true;
    noise = Number.NaN;
    renderer.setScene(of.scene!, mixNow(of));
    aim();
    if (renderer.edition() !== shown) show();
    go();
  };

  const piece = () => {
    if (atRest()) {
      tell('rests');
      return;
    }
    try {
      const before = renderer.samples();
      const stage = renderer.renderSome(PIECE_ms);
      const samples = renderer.samples();
      if (samples !== before && (Number.isNaN(noise) || isMeasuredAt(samples))) noise = renderer.noise();
      if (samples === 1 && before === 0) aim();
      if (renderer.edition() !== shown) show();
      if (next && (!unseen || stage === 'building')) draw(next);
      // Some drivers build at the first draw: nothing is ready before there is something to show.
      tell(stage === 'building' || shown < 0 ? 'building' : 'sampling');
    } catch (error) {
      frame.setState({ failure: (error as Error).message });
      return;
    }
    go();
  };

  const timer = newPromptTimer(piece);
  const go = timer.start;

  const mixNow = ({ scene, answer }: FrameSubject) =>
    mixWithout(scene!.gains, answer.lamps, store.getState().muted);

  const unsubscribes = [
    store.subscribe((now, before) => {
      if (now.muted !== before.muted && subject) {
        noise = Number.NaN;
        renderer.setMix(mixNow(subject));
        show();
        go();
      }
    }),
    frame.subscribe((now, before) => {
      if (SHOWN.some((key) => now[key] !== before[key])) show();
      if (now.paused === before.paused) return;
      if (now.paused) go();
      else fillPanel();
    }),
  ];
  // A canvas keeps its drawing only until the browser has shown it.
  frame.setState({
    grab: () => {
      show();
      return canvas.toDataURL('image/png');
    },
  });
  const onVisible = () => go();
  document.addEventListener('visibilitychange', onVisible);
  canvas.addEventListener('webglcontextrestored', onVisible);

  return {
    take(given) {
      next = null;
      if (!given?.scene) {
        subject = null;
        blank();
      } else if (unseen && !atRest()) next = given;
      else draw(given);
    },
    resize(width_px, height_px) {
      panel = { width_px, height_px };
      fillPanel();
    },
    dispose() {
      disposed = true;
      frame.setState({ grab: null });
      timer.dispose();
      for (const unsubscribe of unsubscribes) unsubscribe();
      document.removeEventListener('visibilitychange', onVisible);
      canvas.removeEventListener('webglcontextrestored', onVisible);
      renderer.dispose();
    },
  };
}

/** At powers of two, and then at equal distances. */
function isMeasuredAt(samples: number): boolean {
  return samples >= 4 && ((samples & (samples - 1)) === 0 || samples % MEASURED_EVERY === 0);
}
