import { type KeyboardEvent, type PointerEvent, useEffect, useMemo, useRef, useState } from 'react';
import '../styles/frame.css';
import { ProblemList } from '../panels/problem-list.tsx';
import { choose } from '../store/choose.ts';
import { cameraShown } from '../store/shown-scene.ts';
import { useEditor, useEditorStore } from '../store/use-editor.ts';
import { FrameOverlay } from './frame-overlay.tsx';
import { FrameTools } from './frame-tools.tsx';
import { FrameWords } from './frame-words.tsx';
import { keepSpot } from './keep-spot.ts';
import { StopScale } from './stop-scale.tsx';
import { useFrame, useFrameStore } from './use-frame.ts';
import { useFrameCanvas } from './use-frame-canvas.ts';
import { Wipe } from './wipe.tsx';
import { startFrameDesk } from './worker-frame-desk.ts';

/** A still pointer is looked at; one that passes by is not. */
const POINTER_RESTS_ms = 70;
const KEY_STEP = 0.01;

/** What the chosen camera sees, at its exposure and no other. */
export function FramePanel() {
  const store = useEditorStore();
  const frame = useFrameStore();
  const aspect = useEditor((state) => {
    const camera = cameraShown(state);
    return camera && (camera.aspect ?? camera.sensor_mm[0] / camera.sensor_mm[1]);
  });
  const failure = useFrame((state) => state.failure);
  const problems = useFrame((state) => state.problems);
  const look = useFrame((state) => state.look);
  const { ref, standInRef, key, tryAgain } = useFrameCanvas();
  const standsIn = useFrame((state) => state.standIn !== null);
  const [room, setRoom] = useState<HTMLDivElement | null>(null);
  const size = useFittingSize(room, aspect ?? 16 / 9);

  return (
    <section className="panel frame-panel" aria-label="Frame">
      <FrameTools />
      <div className="frame-room" ref={setRoom}>
        {aspect === undefined && (
          <p className="frame-message">
            No camera yet: the frame is what a camera sees, at its exposure. Add one under Build, standing
            where you would stand.
          </p>
        )}
        <div className="frame-picture" style={size} hidden={aspect === undefined}>
          <canvas key={key} ref={ref} />
          <canvas ref={standInRef} hidden={!standsIn} />
          <Wipe />
          <FrameOverlay />
          <SpotArea store={store} frame={frame} />
        </div>
        {look === 'stops' && <StopScale />}
        {failure !== null && (
          <div className="frame-message" role="alert">
            <p>The frame stopped: {failure}</p>
            <button type="button" onClick={tryAgain}>
              Start it again
            </button>
          </div>
        )}
        {aspect !== undefined && problems.length > 0 && (
          <div className="frame-message" role="status">
            <p>This scene cannot be seen as it stands.</p>
            <ProblemList problems={problems} />
          </div>
        )}
      </div>
      <FrameWords />
    </section>
  );
}

/** The largest picture of an aspect that fits. */
function useFittingSize(room: HTMLElement | null, aspect: number) {
  const [size, setSize] = useState({ width: 0, height: 0 });
  useEffect(() => {
    if (!room) return;
    const observer = new ResizeObserver(([entry]) => {
      const { width, height } = entry!.contentRect;
      const fitting = Math.floor(Math.min(width, height * aspect));
      setSize({ width: fitting, height: Math.floor(fitting / aspect) });
    });
    observer.observe(room);
    return () => observer.disconnect();
  }, [room, aspect]);
  return size;
}

/** Takes the pointer and the keys over the frame: they move the spot meter, and a press chooses what is under it. */
function SpotArea({
  store,
  frame,
}: {
  readonly store: ReturnType<typeof useEditorStore>;
  readonly frame: ReturnType<typeof useFrameStore>;
}) {
  const keeper = useMemo(() => keepSpot(store, frame, startFrameDesk), [store, frame]);
  useEffect(() => () => keeper.stop(), [keeper]);
  const timer = useRef<ReturnType<typeof setTimeout>>(undefined);

  const placeOf = ({ currentTarget, clientX, clientY }: PointerEvent) => {
    const { left, top, width, height } = currentTarget.getBoundingClientRect();
    const within = (x: number) => Math.min(1, Math.max(0, x));
    return { u: within((clientX - left) / width), v: within((clientY - top) / height) };
  };
  const onPointerMove = (event: PointerEvent) => {
    const at = placeOf(event);
    clearTimeout(timer.current);
    timer.current = setTimeout(() => keeper.look(at), POINTER_RESTS_ms);
  };
  const leave = () => {
    clearTimeout(timer.current);
    keeper.look(null);
  };
  const onKeyDown = (event: KeyboardEvent) => {
    const way = { ArrowLeft: [-1, 0], ArrowRight: [1, 0], ArrowUp: [0, -1], ArrowDown: [0, 1] }[event.key];
    const spot = frame.getState().spot;
    if (event.key === 'Enter' && spot?.answer?.seen) choose(store, [spot.answer.seen.id]);
    if (event.key === 'Escape') keeper.look(null);
    if (!way) return;
    event.preventDefault();
    const step = event.shiftKey ? 10 * KEY_STEP : KEY_STEP;
    const { u, v } = spot ?? { u: 0.5, v: 0.5 };
    const within = (x: number) => Math.min(1, Math.max(0, x));
    keeper.look({ u: within(u + step * way[0]!), v: within(v + step * way[1]!) });
  };

  return (
    <div
      className="spot-area"
      role="application"
      // biome-ignore lint/a11y/noNoninteractiveTabindex: it takes keys.
      tabIndex={0}
      aria-label="Spot meter over the frame: arrow keys move it, Enter chooses what it is on"
      onPointerMove={onPointerMove}
      onPointerDown={(event) => keeper.look(placeOf(event))}
      onPointerLeave={(event) => event.pointerType === 'mouse' && leave()}
      onDoubleClick={() => {
        const seen = frame.getState().spot?.answer?.seen;
        if (seen) choose(store, [seen.id]);
      }}
      onKeyDown={onKeyDown}
      onBlur={leave}
    />
  );
}
