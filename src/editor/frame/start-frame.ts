import type { EditorStore } from '../store/editor-store.ts';
import type { FrameState, FrameStore } from './frame-state.ts';
import { type FrameWithoutGraphics, startFrameWithoutGraphics } from './frame-without-graphics.ts';
import { type KeptCard, keepCard } from './keep-card.ts';
import { type FrameSubject, keepFrame } from './keep-frame.ts';
import { startFrameDesk, type WorkerFrameDesk } from './worker-frame-desk.ts';

/** A frame of the scene in the store, on the page. */
export interface DrawnFrame {
  /** How large the canvas is on the screen, in its own pixels. */
  resize(width_px: number, height_px: number): void;
  end(): void;
}

/**
 * The processor draws first, on a canvas that lies over the card's: it has a small frame at once, of the same light model. Then
 * the card is begun with, which takes some drivers half a minute, and the whole machine where it is only made believe; when it
 * has light to show, the processor leaves off. Where there are no graphics, the processor has the canvas to itself.
 */
export function startFrame(
  canvas: HTMLCanvasElement,
  standInCanvas: HTMLCanvasElement,
  store: EditorStore,
  frame: FrameStore,
): DrawnFrame {
  const desk = startFrameDesk();
  return frame.getState().withoutGraphics === null
    ? processorThenCard(canvas, standInCanvas, desk, store, frame)
    : processorAlone(canvas, desk, store, frame);
}

function processorAlone(
  canvas: HTMLCanvasElement,
  desk: WorkerFrameDesk,
  store: EditorStore,
  frame: FrameStore,
): DrawnFrame {
  const made = startFrameWithoutGraphics(canvas, frame, desk, (progress) => frame.setState({ progress }));
  frame.setState({ grab: async () => canvas.toDataURL('image/png') });
  const keeper = keepFrame(store, frame, desk, made.take, { card: () => false, processor: () => true });
  return {
    resize: () => {},
    end() {
      keeper.stop();
      made.dispose();
      frame.setState({ grab: null });
      desk.close();
    },
  };
}

function processorThenCard(
  canvas: HTMLCanvasElement,
  standInCanvas: HTMLCanvasElement,
  desk: WorkerFrameDesk,
  store: EditorStore,
  frame: FrameStore,
): DrawnFrame {
  let card: KeptCard | null = null;
  let cardBegun = false;
  let ended = false;
  let size: readonly [width_px: number, height_px: number] = [0, 0];
  let subject: FrameSubject | null | undefined;
  let standIn: FrameWithoutGraphics | null = startFrameWithoutGraphics(
    standInCanvas,
    frame,
    desk,
    (progress) => frame.setState({ standIn: progress }),
  );

  const keeper = keepFrame(
    store,
    frame,
    desk,
    (next) => {
      subject = next;
      standIn?.take(next);
      card?.take(next);
      considerCard();
    },
    { card: () => cardBegun, processor: () => standIn !== null },
  );

  /** Not before there is something to look at: from here on the page may have to wait for the card. Not for a held frame. */
  const considerCard = () => {
    const { reading, readingFailure } = store.getState();
    const { paused, standIn: picture } = frame.getState();
    const numbers = reading !== null || readingFailure !== null;
    if (cardBegun || paused || !numbers || (!picture && subject !== null)) return;
    cardBegun = true;
    afterPaint(beginCard);
  };

  const beginCard = async () => {
    // What it is to draw is made while it is being started.
    keeper.again();
    let begun: KeptCard;
    try {
      begun = await keepCard(canvas, store, frame, endStandIn);
    } catch (error) {
      if (ended) return;
      // An answer that is still on its way would take the failure back.
      keeper.stop();
      frame.setState(withoutCard(error as Error, frame.getState()));
      return;
    }
    if (ended) {
      begun.dispose();
      return;
    }
    card = begun;
    card.resize(...size);
    if (subject?.scene) card.take(subject);
  };

  const endStandIn = () => {
    if (!standIn) return;
    standIn.dispose();
    standIn = null;
    frame.setState({ standIn: null });
  };

  const unsubscribes = [
    store.subscribe(considerCard),
    frame.subscribe(({ failure }) => {
      if (failure !== null) endStandIn();
      considerCard();
    }),
  ];

  return {
    resize(width_px, height_px) {
      size = [width_px, height_px];
      card?.resize(width_px, height_px);
    },
    end() {
      ended = true;
      keeper.stop();
      for (const unsubscribe of unsubscribes) unsubscribe();
      endStandIn();
      card?.dispose();
      desk.close();
    },
  };
}

/** How it goes on where the card cannot be had: from the page, then by the processor; any other error is told. */
function withoutCard({ name, message }: Error, { cardDrawsIn }: FrameState): Partial<FrameState> {
  if (name !== 'GraphicsUnable') return { failure: message };
  return cardDrawsIn === 'worker' ? { cardDrawsIn: 'page' } : { withoutGraphics: message };
}

/** When what is due now is on the screen. */
function afterPaint(work: () => void): void {
  requestAnimationFrame(() => setTimeout(work));
}
