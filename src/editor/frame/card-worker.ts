import { expose } from 'comlink';
import { type FrameOnCard, startFrameOnCard } from './frame-on-card.ts';

/** The graphics card at work in a worker: what the driver waits for, the page does not. */
export interface CardDesk extends Omit<FrameOnCard, 'dispose'> {
  /** Before anything else, once. @throws GraphicsUnable where this browser's graphics cannot, in workers. */
  start(...given: Parameters<typeof startFrameOnCard>): void;
}

let card: FrameOnCard | null = null;

const desk: CardDesk = {
  start(canvas, wishes, tell) {
    card = startFrameOnCard(canvas, wishes, tell);
  },
  take: (subject) => card?.take(subject),
  remix: (mix) => card?.remix(mix),
  wish: (wishes) => card?.wish(wishes),
  resize: (width_px, height_px) => card?.resize(width_px, height_px),
  picture: async () => (await card?.picture()) ?? null,
};

expose(desk);
