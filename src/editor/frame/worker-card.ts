import { proxy, transfer, wrap } from 'comlink';
import { lifeOf } from '../worker/worker-life.ts';
import type { CardDesk } from './card-worker.ts';
import type { CardNews, CardWishes, FrameOnCard } from './frame-on-card.ts';

/** Whether a canvas of the page can be drawn on by a worker here. */
export function workersCanDraw(): boolean {
  return 'transferControlToOffscreen' in HTMLCanvasElement.prototype;
}

/**
 * The graphics card in a worker of its own, which has the canvas from here on. Rejects with GraphicsUnable's name where the
 * browser has no graphics in workers; a worker that dies is told as a failure.
 */
export async function startCardInWorker(
  canvas: HTMLCanvasElement,
  wishes: CardWishes,
  tell: (news: CardNews) => void,
): Promise<FrameOnCard> {
  const worker = new Worker(new URL('./card-worker.ts', import.meta.url), { type: 'module' });
  const remote = wrap<CardDesk>(worker);
  const { whileAlive, end } = lifeOf(worker);
  let ended = false;
  const saying = (call: () => Promise<void>) => {
    whileAlive(call).catch((error: Error) => {
      if (!ended) tell({ failure: error.message });
    });
  };
  const surface = canvas.transferControlToOffscreen();
  try {
    await whileAlive(() => remote.start(transfer(surface, [surface]), wishes, proxy(tell)));
  } catch (error) {
    end();
    throw error;
  }
  return {
    take: (subject) => saying(() => remote.take(subject)),
    remix: (mix) => saying(() => remote.remix(mix)),
    wish: (wanted) => saying(() => remote.wish(wanted)),
    resize: (width_px, height_px) => saying(() => remote.resize(width_px, height_px)),
    picture: () => whileAlive(() => remote.picture()),
    dispose() {
      ended = true;
      end();
    },
  };
}
