import type { KeyboardEvent, PointerEvent } from 'react';
import { thirdsText } from '../../core/exposure/thirds.ts';
import { stopsWords } from './reading-words.ts';
import type { PlacedNeedle } from './rule-layout.ts';
import { nearestThird, type RuleScale } from './rule-scale.ts';
import { ruleStore, want } from './rule-state.ts';

interface WantedFlagProps {
  readonly needle: PlacedNeedle;
  readonly scale: RuleScale;
  /** Null where nothing is wanted yet: the flag waits under its needle. */
  readonly wanted_stops: number | null;
  /** Of the chosen mark: it stands before the others. */
  readonly own: boolean;
}

const THIRD = 1 / 3;
const STEPS: Readonly<Record<string, number>> = {
  ArrowRight: THIRD,
  ArrowUp: THIRD,
  ArrowLeft: -THIRD,
  ArrowDown: -THIRD,
  PageUp: 1,
  PageDown: -1,
};

/** Where a flag hangs: where its mark is wanted, or on the ruler under its needle. */
export function flagPlace_stops(stops: number, wanted_stops: number | null, { range }: RuleScale): number {
  return wanted_stops ?? nearestThird(Math.min(range.white_stops, Math.max(range.floor_stops, stops)));
}

/** Where a mark is wanted: dragged along the ruler, or moved by keys in thirds of a stop. */
export function WantedFlag({ needle, scale, wanted_stops, own }: WantedFlagProps) {
  const { mark, stops } = needle.mixed;
  const { floor_stops, white_stops } = scale.range;
  const within = (value: number) => nearestThird(Math.min(white_stops, Math.max(floor_stops, value)));
  const at_stops = flagPlace_stops(stops, wanted_stops, scale);

  const set = (value: number) => {
    want(mark.id, within(value));
    ruleStore.setState({ tab: 'wanted' });
  };
  const onPointerDown = (event: PointerEvent<HTMLDivElement>) => {
    if (event.button !== 0) return;
    event.currentTarget.setPointerCapture(event.pointerId);
  };
  const onPointerMove = (event: PointerEvent<HTMLDivElement>) => {
    if (!event.currentTarget.hasPointerCapture(event.pointerId)) return;
    const strip = event.currentTarget.parentElement!.getBoundingClientRect();
    const to = within(scale.stopsAt(event.clientX - strip.left));
    if (to !== at_stops) set(to);
  };
  const onKeyDown = (event: KeyboardEvent<HTMLDivElement>) => {
    const step = STEPS[event.key];
    if (step !== undefined) set(at_stops + step);
    else if (event.key === 'Home') set(floor_stops);
    else if (event.key === 'End') set(white_stops);
    else if (event.key === 'Delete' || event.key === 'Backspace') want(mark.id, null);
    else return;
    event.preventDefault();
  };

  return (
    <div
      className={`flag ${wanted_stops === null ? 'waiting' : 'set'} ${own ? 'own' : ''}`}
      role="slider"
      tabIndex={0}
      aria-label={`Wanted at ${mark.name}`}
      aria-valuemin={floor_stops}
      aria-valuemax={white_stops}
      aria-valuenow={Number(at_stops.toFixed(2))}
      aria-valuetext={wanted_stops === null ? 'nothing yet' : stopsWords(at_stops)}
      style={{ transform: `translateX(${scale.x_px(at_stops)}px)` }}
      onPointerDown={onPointerDown}
      onPointerMove={onPointerMove}
      onKeyDown={onKeyDown}
    >
      <span className="flag-cloth" aria-hidden="true">
        <span className="flag-number">{needle.number}</span>
        {wanted_stops === null ? 'want' : thirdsText(at_stops)}
      </span>
    </div>
  );
}
