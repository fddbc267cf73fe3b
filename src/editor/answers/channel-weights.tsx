import { useId, useState } from 'react';
import { SUM_TOLERANCE } from '../../core/monochrome/channel-mix.ts';
import { numberFromText, numberText } from '../figures/number-text.ts';

type Weights = [number, number, number];
const CHANNELS = ['Red', 'Green', 'Blue'] as const;
const MOST = 3;

/** Weights of linear red, green and blue: what a mix must add up to is said as long as it does not. */
export function ChannelWeights({
  start,
  onSet,
}: {
  readonly start: Weights;
  readonly onSet: (weights: Weights) => void;
}) {
  const id = useId();
  const [drafts, setDrafts] = useState(() => start.map((weight) => numberText(weight, 3)));
  const weights = drafts.map(numberFromText);
  const wrong = wordsOfWrong(weights);
  return (
    <fieldset className="channel-weights">
      <legend>Weights of linear red, green and blue</legend>
      {CHANNELS.map((channel, i) => (
        <label key={channel}>
          <span>{channel}</span>
          <input
            type="text"
            inputMode="decimal"
            value={drafts[i]}
            aria-invalid={wrong !== null}
            aria-describedby={id}
            onChange={({ target }) => setDrafts(drafts.with(i, target.value))}
          />
        </label>
      ))}
      <button type="button" disabled={wrong !== null} onClick={() => onSet(weights as Weights)}>
        Set the mix
      </button>
      <p id={id} className="quiet">
        {wrong ?? 'They add up to 1: a neutral keeps its brightness.'}
      </p>
    </fieldset>
  );
}

function wordsOfWrong(weights: readonly (number | null)[]): string | null {
  if (weights.some((weight) => weight === null || Math.abs(weight) > MOST))
    return `Each weight is a number from −${MOST} to ${MOST}.`;
  const sum = weights.reduce<number>((total, weight) => total + weight!, 0);
  if (Math.abs(sum - 1) <= SUM_TOLERANCE) return null;
  return `They add up to ${numberText(sum, 3)}; they must add up to 1, so that a neutral keeps its brightness.`;
}
