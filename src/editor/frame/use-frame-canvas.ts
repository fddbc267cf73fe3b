import { useEffect, useRef, useState } from 'react';
import { GraphicsUnable } from '../../preview/gl/float-target.ts';
import type { EditorStore } from '../store/editor-store.ts';
import { useEditorStore } from '../store/use-editor.ts';
import { type FrameOnCard, startFrameOnCard } from './frame-on-card.ts';
import type { FrameStore } from './frame-state.ts';
import { startFrameWithoutGraphics } from './frame-without-graphics.ts';
import { keepFrame } from './keep-frame.ts';
import { useFrame, useFrameStore } from './use-frame.ts';
import { startFrameDesk } from './worker-frame-desk.ts';

/** Sharper than this nobody sees, and every pixel costs. */
const MOST_PIXEL_RATIO = 2;

/**
 * Draws the frame on the canvas that the ref is put on, for as long as that is on the page. A canvas that has tried the
 * graphics can no longer be drawn on otherwise: `key` tells when another one is wanted.
 */
export function useFrameCanvas() {
  const store = useEditorStore();
  const frame = useFrameStore();
  const withoutGraphics = useFrame((state) => state.withoutGraphics);
  const [attempt, setAttempt] = useState(0);
  const ref = useRef<HTMLCanvasElement>(null);
  const standInRef = useRef<HTMLCanvasElement>(null);

  // `attempt` begins it all anew after a failure.
  // biome-ignore lint/correctness/useExhaustiveDependencies: it stands for the canvas that it makes new.
  useEffect(() => {
    const canvas = ref.current;
    if (!canvas) return;
    let onCard: FrameOnCard | null = null;
    if (withoutGraphics === null) {
      try {
        onCard = startFrameOnCard(canvas, store, frame);
      } catch (error) {
        if (!(error instanceof GraphicsUnable)) throw error;
        frame.setState({ withoutGraphics: error.message });
        return;
      }
    }
    const desk = startFrameDesk();
    const made =
      onCard ?? startFrameWithoutGraphics(canvas, frame, desk, (progress) => frame.setState({ progress }));
    if (!onCard) frame.setState({ grab: () => canvas.toDataURL('image/png') });
    const endStandIn = onCard && standInRef.current ? standIn(standInRef.current, store, frame) : undefined;
    const stop = keepFrame(store, frame, desk, made.take);
    const observer = new ResizeObserver(([entry]) => {
      const { width, height } = entry!.contentRect;
      frame.setState({ onScreen: { width, height } });
      const ratio = Math.min(MOST_PIXEL_RATIO, window.devicePixelRatio);
      onCard?.resize(Math.round(width * ratio), Math.round(height * ratio));
    });
    observer.observe(canvas);
    return () => {
      observer.disconnect();
      stop();
      endStandIn?.();
      made.dispose();
      frame.setState({ grab: null });
      desk.close();
    };
  }, [store, frame, withoutGraphics, attempt]);

  return {
    ref,
    standInRef,
    key: `${withoutGraphics === null} ${attempt}`,
    tryAgain: () => {
      frame.setState({ failure: null });
      setAttempt(attempt + 1);
    },
  };
}

/** The card is given so long before the processor steps in: most drivers have the program ready by then, from last time. */
const PATIENCE_ms = 1200;

/**
 * Some drivers take half a minute to build the program that traces light, once. Until then the processor makes the frame, of
 * the same light model. Returns a way to end it.
 */
function standIn(canvas: HTMLCanvasElement, store: EditorStore, frame: FrameStore): () => void {
  let end: (() => void) | undefined;
  const isBuilding = () => {
    const { progress, failure, paused } = frame.getState();
    return (
      failure === null && !paused && (!progress || (progress.stage === 'building' && progress.samples === 0))
    );
  };
  const begin = () => {
    const desk = startFrameDesk();
    const made = startFrameWithoutGraphics(canvas, frame, desk, (progress) =>
      frame.setState({ standIn: progress }),
    );
    const stop = keepFrame(store, frame, desk, made.take, false);
    end = () => {
      stop();
      made.dispose();
      desk.close();
      frame.setState({ standIn: null });
    };
  };
  const wait = () => setTimeout(() => !end && isBuilding() && begin(), PATIENCE_ms);
  let timer = wait();
  const unsubscribe = frame.subscribe(({ progress, paused }, before) => {
    if (before.paused && !paused) {
      clearTimeout(timer);
      timer = wait();
    }
    if (!progress || progress.stage === 'building' || !end) return;
    const done = end;
    end = undefined;
    done();
  });
  return () => {
    clearTimeout(timer);
    unsubscribe();
    end?.();
  };
}
