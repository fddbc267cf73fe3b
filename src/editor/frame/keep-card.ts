import type { Texels } from '../../preview/pack/texels.ts';
import type { EditorStore } from '../store/editor-store.ts';
import type { CardNews, CardWishes, FrameOnCard } from './frame-on-card.ts';
import type { FrameState, FrameStore } from './frame-state.ts';
import { type FrameSubject, mixWithout } from './keep-frame.ts';
import { sentScene } from './sent-scene.ts';
import { startCardInWorker, workersCanDraw } from './worker-card.ts';

const WISHED = ['look', 'smoothed', 'marksEnds', 'paused'] as const;

/** The graphics card's frame on a canvas of the page. */
export interface KeptCard {
  take(subject: FrameSubject | null): void;
  resize(width_px: number, height_px: number): void;
  dispose(): void;
}

/**
 * `onDrawn`: there is a picture of what was taken on the screen, where there was none of it.
 *
 * Starts the card in a worker where it can be there, and keeps it told what the page wants of it. Rejects with GraphicsUnable's
 * name where this browser's graphics cannot, there.
 */
export async function keepCard(
  canvas: HTMLCanvasElement,
  store: EditorStore,
  frame: FrameStore,
  onDrawn: () => void,
): Promise<KeptCard> {
  let subject: FrameSubject | null = null;
  let textures: Readonly<Record<string, Texels>> = {};
  let blanks = 0;

  const hear = (news: CardNews) => {
    if (!('drawnSince' in news)) frame.setState(news);
    else if (news.drawnSince === blanks) {
      canvas.style.visibility = '';
      onDrawn();
    }
  };
  const inWorker = frame.getState().cardDrawsIn === 'worker' && workersCanDraw();
  const wishes = wishesOf(frame.getState());
  const card: FrameOnCard = inWorker
    ? await startCardInWorker(canvas, wishes, hear)
    : (await import('./frame-on-card.ts')).startFrameOnCard(canvas, wishes, hear);

  const mixNow = ({ scene, answer }: FrameSubject) =>
    mixWithout(scene!.gains, answer.lamps, store.getState().muted);
  const wish = () => card.wish(wishesOf(frame.getState()));

  const unsubscribes = [
    store.subscribe((now, before) => {
      if (now.muted !== before.muted && subject) card.remix(mixNow(subject));
    }),
    frame.subscribe((now, before) => {
      if (WISHED.some((key) => now[key] !== before[key])) wish();
    }),
  ];
  document.addEventListener('visibilitychange', wish);
  // It may have changed while the worker was started.
  wish();
  frame.setState({ grab: async () => addressOf(await card.picture()) });

  return {
    take(given) {
      const { scene, answer } = given ?? {};
      subject = scene && answer?.camera ? given : null;
      if (!subject) {
        // A picture of another scene must not be taken for this one's, and to empty the canvas one would wait for the card.
        canvas.style.visibility = 'hidden';
        blanks++;
        card.take(null);
        return;
      }
      card.take({
        scene: sentScene(scene!, textures),
        camera: answer!.camera!,
        mix: mixNow(subject),
      });
      ({ textures } = scene!);
    },
    resize: card.resize,
    dispose() {
      frame.setState({ grab: null });
      for (const unsubscribe of unsubscribes) unsubscribe();
      document.removeEventListener('visibilitychange', wish);
      card.dispose();
    },
  };
}

function wishesOf({ look, smoothed, marksEnds, paused }: FrameState): CardWishes {
  return { look, smoothed, marksEnds, paused, hidden: document.hidden };
}

function addressOf(picture: Blob | null): Promise<string | null> {
  return new Promise((resolve) => {
    if (!picture) {
      resolve(null);
      return;
    }
    const reader = new FileReader();
    reader.onload = () => resolve(reader.result as string);
    reader.onerror = () => resolve(null);
    reader.readAsDataURL(picture);
  });
}
