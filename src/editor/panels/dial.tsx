import { type KeyboardEvent, useId, useState } from 'react';
import { beginGesture, endGesture } from '../store/edits.ts';
import { useEditorStore } from '../store/use-editor.ts';

interface DialProps {
  readonly label: string;
  readonly value: number;
  readonly unit: string;
  /** The figure as it is written; metres with two decimals when left out. */
  readonly shown?: string;
  readonly from: number;
  readonly to: number;
  readonly step: number;
  /** What a screen reader says in place of the bare number. */
  readonly spoken?: string;
  readonly beside?: string | undefined;
  readonly onChange: (value: number) => void;
}

const SLIDER_KEYS = /^(Arrow|Page|Home|End)/;

/** One figure, to slide and to type. A whole slide, or a key held down, is one step of history. */
export function Dial(props: DialProps) {
  const { label, value, unit, shown = value.toFixed(2), from, to, step, spoken, beside, onChange } = props;
  const store = useEditorStore();
  const id = useId();
  const end = () => endGesture(store);

  return (
    <div className="dial">
      <label htmlFor={id}>{label}</label>
      {beside && <span className="quiet dial-beside">{beside}</span>}
      <TypedFigure label={label} value={value} unit={unit} shown={shown} step={step} onChange={onChange} />
      <input
        id={id}
        type="range"
        min={Math.min(from, Math.floor(value))}
        max={Math.max(to, Math.ceil(value))}
        step={step}
        value={value}
        aria-valuetext={spoken ?? `${shown} ${unit}`}
        onChange={({ target }) => onChange(Number(target.valueAsNumber.toFixed(4)))}
        onPointerDown={() => beginGesture(store)}
        onPointerUp={end}
        onPointerCancel={end}
        onKeyDown={(event) => SLIDER_KEYS.test(event.key) && beginGesture(store)}
        onKeyUp={end}
        onBlur={end}
      />
    </div>
  );
}

type TypedProps = Pick<DialProps, 'label' | 'value' | 'unit' | 'step' | 'onChange'> & {
  readonly shown: string;
};

/** The figure as text: taken on Enter or on leaving it, nudged by the arrows; a decimal comma will do. */
function TypedFigure({ label, value, unit, shown, step, onChange }: TypedProps) {
  const [draft, setDraft] = useState<string | null>(null);

  const take = () => {
    const typed = Number((draft ?? '').replace(',', '.').replace('\u2212', '-'));
    if (draft !== null && draft.trim() !== '' && Number.isFinite(typed) && draft !== shown) onChange(typed);
    setDraft(null);
  };
  const onKeyDown = (event: KeyboardEvent) => {
    if (event.key === 'Enter') take();
    else if (event.key === 'Escape') setDraft(null);
    else if (event.key === 'ArrowUp' || event.key === 'ArrowDown') {
      event.preventDefault();
      const by = (event.key === 'ArrowUp' ? step : -step) * (event.shiftKey ? 10 : 1);
      setDraft(null);
      onChange(Number((value + by).toFixed(4)));
    }
  };

  return (
    <span className="typed">
      <input
        type="text"
        inputMode="decimal"
        autoComplete="off"
        aria-label={`${label}, ${unit === '%' ? 'percent' : 'metres'}`}
        value={draft ?? shown}
        onChange={({ target }) => setDraft(target.value)}
        onBlur={take}
        onKeyDown={onKeyDown}
      />
      <span aria-hidden="true">{unit}</span>
    </span>
  );
}
