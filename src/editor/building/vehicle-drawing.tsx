import { type KeyboardEvent, type PointerEvent, useId, useMemo, useRef } from 'react';
import type { Side } from '../../core/geometry/vehicle-spec.ts';
import {
  asFarAsFits,
  draggedRun,
  type Run,
  type RunGrip,
  type RunPlace,
  runAt,
  runPatch,
  type SeenOpening,
  seenWall,
} from '../../scene/building/opening-runs.ts';
import type { VehicleSolid } from '../../scene/schema/solid.ts';
import { lengthText } from '../figures/length-text.ts';
import { beginGesture, edit, endGesture } from '../store/edits.ts';
import { useEditor, useEditorStore } from '../store/use-editor.ts';
import { OpeningShape } from './opening-shape.tsx';
import { wallOutline } from './wall-outline.ts';

interface VehicleDrawingProps {
  readonly vehicle: VehicleSolid;
  readonly side: Side;
  readonly chosen: RunPlace | null;
  readonly onChoose: (place: RunPlace) => void;
}

/** Narrower than this a window cannot be pressed; a longer vehicle is scrolled. */
const LEAST_px_per_m = 36;
const ROOM_px = 300;
const MARGIN_px = 26;
const NUDGE_m = 0.05;

interface Drag {
  readonly pointer: number;
  readonly x: number;
  readonly y: number;
  readonly vehicle: VehicleSolid;
  readonly place: RunPlace;
  readonly grip: RunGrip;
  readonly nth: number;
}

/** One side of a vehicle from outside, to scale, with its rows of windows and doors to take hold of. */
export function VehicleDrawing({ vehicle, side, chosen, onChoose }: VehicleDrawingProps) {
  const store = useEditorStore();
  const lengths = useEditor((state) => state.lengths);
  const title = useId();
  const drag = useRef<Drag | null>(null);
  const wall = useMemo(() => seenWall(vehicle, side), [vehicle, side]);
  const isEnd = side === 'front' || side === 'back';
  const scale_px = Math.max(LEAST_px_per_m, ROOM_px / wall.span_m);
  const toX = (along_m: number) => MARGIN_px + (along_m + wall.span_m / 2) * scale_px;
  const toY = (up_m: number) => MARGIN_px + (wall.height_m - up_m) * scale_px;
  const width = 2 * MARGIN_px + wall.span_m * scale_px;
  const height = 2 * MARGIN_px + wall.height_m * scale_px;

  const put = (from: VehicleSolid, place: RunPlace, patch: Partial<Run>) => {
    const fitting = asFarAsFits(from, place, patch);
    if (Object.keys(fitting).length === 0) return;
    const changed = runPatch(from, place, fitting);
    edit(
      store,
      { do: 'change', id: vehicle.id, patch: changed },
      `Change ${place.kind} of ${vehicle.name ?? vehicle.id}`,
    );
  };
  const take = (event: PointerEvent<Element>, opening: SeenOpening, grip: RunGrip) => {
    if (event.button !== 0 || drag.current) return;
    event.stopPropagation();
    const place = { kind: opening.kind, index: opening.index };
    onChoose(place);
    event.currentTarget.setPointerCapture(event.pointerId);
    const { pointerId: pointer, clientX: x, clientY: y } = event;
    drag.current = { pointer, x, y, vehicle, place, grip, nth: opening.nth };
    beginGesture(store, 'drag');
  };
  const move = (event: PointerEvent) => {
    const now = drag.current;
    if (now?.pointer !== event.pointerId) return;
    const run = runAt(now.vehicle, now.place);
    if (!run) return;
    const right_m = (event.clientX - now.x) / scale_px;
    const up_m = (now.y - event.clientY) / scale_px;
    put(now.vehicle, now.place, draggedRun(run, now.grip, now.nth, wall.sense, right_m, up_m));
  };
  const letGo = (event: PointerEvent) => {
    if (drag.current?.pointer !== event.pointerId) return;
    drag.current = null;
    endGesture(store);
  };
  const nudge = (event: KeyboardEvent, place: RunPlace) => {
    const run = runAt(vehicle, place);
    const by = (event.shiftKey ? 10 : 1) * NUDGE_m;
    const step = STEPS[event.key];
    if (!run || !step) return;
    event.preventDefault();
    put(vehicle, place, draggedRun(run, 'whole', 0, wall.sense, step[0] * by, step[1] * by));
  };

  return (
    <figure className="vehicle-figure">
      <div className="vehicle-scroll">
        {/* biome-ignore lint/a11y/useSemanticElements: a fieldset cannot be a drawing */}
        <svg
          className="vehicle-drawing"
          width={width}
          height={height}
          role="group"
          aria-labelledby={title}
          onPointerMove={move}
          onPointerUp={letGo}
          onPointerCancel={letGo}
        >
          <title id={title}>{`${side} side of ${vehicle.name ?? vehicle.id}`}</title>
          <path className="vehicle-wall" d={wallOutline(wall, toX, toY)} />
          {wall.cornerRadius_m === 0 && wall.roofFrom_m < wall.height_m && (
            <line
              className="vehicle-roof"
              x1={toX(-wall.span_m / 2)}
              x2={toX(wall.span_m / 2)}
              y1={toY(wall.roofFrom_m)}
              y2={toY(wall.roofFrom_m)}
            />
          )}
          {wall.openings.map((opening) => (
            <OpeningShape
              key={`${opening.kind} ${opening.index} ${opening.nth}`}
              opening={opening}
              run={runAt(vehicle, opening)!}
              chosen={chosen?.kind === opening.kind && chosen.index === opening.index}
              outward={wall.sense}
              toX={toX}
              toY={toY}
              onTake={take}
              onNudge={nudge}
              onChoose={onChoose}
            />
          ))}
        </svg>
      </div>
      <figcaption className="quiet">
        Seen from outside: {lengthText(wall.span_m, lengths)} across, {lengthText(wall.height_m, lengths)}{' '}
        high
        {isEnd ? '' : `, its front to the ${wall.sense === 1 ? 'left' : 'right'}`}
      </figcaption>
    </figure>
  );
}

const STEPS: Readonly<Record<string, readonly [right: number, up: number]>> = {
  ArrowLeft: [-1, 0],
  ArrowRight: [1, 0],
  ArrowUp: [0, 1],
  ArrowDown: [0, -1],
};
