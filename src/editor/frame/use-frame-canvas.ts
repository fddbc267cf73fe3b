import { useEffect, useRef, useState } from 'react';
import { useEditorStore } from '../store/use-editor.ts';
import { startFrame } from './start-frame.ts';
import { useFrame, useFrameStore } from './use-frame.ts';

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
  const cardDrawsIn = useFrame((state) => state.cardDrawsIn);
  const [attempt, setAttempt] = useState(0);
  const ref = useRef<HTMLCanvasElement>(null);
  const standInRef = useRef<HTMLCanvasElement>(null);

  // `attempt` begins it all anew after a failure.
  // biome-ignore lint/correctness/useExhaustiveDependencies: it stands for the canvas that it makes new.
  useEffect(() => {
    const canvas = ref.current;
    if (!canvas) return;
    const drawn = startFrame(canvas, standInRef.current!, store, frame);
    const observer = new ResizeObserver(([entry]) => {
      const { width, height } = entry!.contentRect;
      frame.setState({ onScreen: { width, height } });
      const ratio = Math.min(MOST_PIXEL_RATIO, window.devicePixelRatio);
      drawn.resize(Math.round(width * ratio), Math.round(height * ratio));
    });
    observer.observe(canvas);
    return () => {
      observer.disconnect();
      drawn.end();
    };
  }, [store, frame, withoutGraphics, cardDrawsIn, attempt]);

  return {
    ref,
    standInRef,
    key: `${withoutGraphics === null} ${cardDrawsIn} ${attempt}`,
    tryAgain: () => {
      frame.setState({ failure: null });
      setAttempt(attempt + 1);
    },
  };
}
