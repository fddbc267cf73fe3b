import type { KeyboardEvent, PointerEvent } from 'react';
import type { Run, RunGrip, RunPlace, SeenOpening } from '../../scene/building/opening-runs.ts';

interface OpeningShapeProps {
  readonly opening: SeenOpening;
  readonly run: Run;
  /** Whether its row is. */
  readonly chosen: boolean;
  /** +1 where the row goes on to the right, −1 to the left. */
  readonly outward: 1 | -1;
  readonly toX: (along_m: number) => number;
  readonly toY: (up_m: number) => number;
  readonly onTake: (event: PointerEvent<Element>, opening: SeenOpening, grip: RunGrip) => void;
  readonly onNudge: (event: KeyboardEvent, place: RunPlace) => void;
  readonly onChoose: (place: RunPlace) => void;
}

const KNOB_px = 7;
const REACH_px = 20;
const OFF_px = 14;

/** One window or door; the first of a row stands for it to the keyboard and bears its knobs. */
export function OpeningShape(props: OpeningShapeProps) {
  const { opening, run, chosen, outward, toX, toY, onTake, onNudge, onChoose } = props;
  const { kind, index, nth, left_m, right_m, bottom_m, top_m } = opening;
  const [left, right, top, bottom] = [toX(left_m), toX(right_m), toY(top_m), toY(bottom_m)];
  const first = nth === 0;
  const place = { kind, index };
  const isHole = kind === 'windows' ? !('pane' in run && run.pane) : 'open' in run && run.open;
  const shape = (
    <rect
      className="opening"
      data-kind={kind}
      data-hole={isHole || undefined}
      data-chosen={chosen || undefined}
      x={left}
      y={top}
      width={right - left}
      height={bottom - top}
      onPointerDown={(event) => onTake(event, opening, first ? 'whole' : 'pitch')}
    />
  );
  if (!first) return shape;
  const middle = (left + right) / 2;
  const far = outward === 1 ? right : left;
  return (
    <g>
      {/* biome-ignore lint/a11y/useSemanticElements: a button has no place inside a drawing */}
      <g
        role="button"
        tabIndex={0}
        className="opening-row"
        aria-pressed={chosen}
        aria-label={rowWords(run, place)}
        onFocus={() => onChoose(place)}
        onKeyDown={(event) => onNudge(event, place)}
      >
        {shape}
      </g>
      {chosen && (
        <>
          <Knob x={middle} y={top - OFF_px} onTake={(event) => onTake(event, opening, 'head')} />
          {kind === 'windows' && (
            <Knob x={middle} y={bottom + OFF_px} onTake={(event) => onTake(event, opening, 'sill')} />
          )}
          <Knob
            x={far + outward * OFF_px}
            y={(top + bottom) / 2}
            onTake={(event) => onTake(event, opening, 'width')}
          />
        </>
      )}
    </g>
  );
}

function rowWords({ count }: Run, { kind, index }: RunPlace): string {
  const word = kind === 'windows' ? 'Windows' : 'Doors';
  return `${word}, row ${index + 1}: ${count}`;
}

interface KnobProps {
  readonly x: number;
  readonly y: number;
  readonly onTake: (event: PointerEvent<Element>) => void;
}

/** For fingers far larger than it looks. What it does, the fields below the drawing do by keyboard. */
function Knob({ x, y, onTake }: KnobProps) {
  return (
    <g className="knob" onPointerDown={onTake}>
      <circle className="knob-reach" cx={x} cy={y} r={REACH_px} />
      <circle className="knob-seen" cx={x} cy={y} r={KNOB_px} />
    </g>
  );
}
