import { type KeyboardEvent, useState } from 'react';
import { QUANTITIES, type Quantity, type QuantityName } from '../../figures/quantity.ts';
import { useDesk, useTaste } from '../desk.tsx';
import { type Limits, outsideLimits } from '../schema-limits.ts';

export interface TypedFigureProps {
  readonly label: string;
  readonly quantity: QuantityName;
  /** Undefined where there is none, or several. */
  readonly value: number | undefined;
  /** What stands in the empty field. */
  readonly placeholder: string;
  readonly limits: Limits;
  readonly step: number;
  /** Undefined when it was emptied. */
  readonly onChange: (value: number | undefined) => void;
}

const METRES_PER_INCH = 0.0254;

/** The figure as text: taken on Enter or on leaving it, nudged by the arrow keys, ten times as far with Shift. */
export function TypedFigure(props: TypedFigureProps) {
  const { label, quantity: name, value, placeholder, limits, step, onChange } = props;
  const desk = useDesk();
  const taste = useTaste();
  const [draft, setDraft] = useState<string | null>(null);
  const quantity: Quantity = QUANTITIES[name];
  const shown = value === undefined ? '' : quantity.text(value, taste);
  const unit = quantity.unit(taste);
  const spoken = quantity.spoken(taste);

  const offer = (offered: number): boolean => {
    const why = outsideLimits(limits, offered, (limit) => `${quantity.text(limit, taste)} ${unit}`.trim());
    if (why !== undefined) desk.refuse(`${label}: ${why}, please.`);
    else onChange(offered);
    return why === undefined;
  };
  const take = () => {
    const typed = draft?.trim();
    setDraft(null);
    if (typed === undefined || typed === shown) return;
    if (typed === '') {
      if (limits.optional) onChange(undefined);
      else if (shown !== '') desk.refuse(`${label} cannot be left empty.`);
      return;
    }
    const read = quantity.fromText(typed, taste);
    if (read === null)
      desk.refuse(`${label}: “${typed.slice(0, 30)}” is not understood. Type ${quantity.example}.`);
    else offer(read);
  };
  const onKeyDown = (event: KeyboardEvent) => {
    if (event.key === 'Enter') take();
    else if (event.key === 'Escape') setDraft(null);
    else if (value !== undefined && (event.key === 'ArrowUp' || event.key === 'ArrowDown')) {
      event.preventDefault();
      const inches = name === 'length' && taste.lengths === 'imperial';
      const one = inches ? Math.max(1, Math.round(step / METRES_PER_INCH)) * METRES_PER_INCH : step;
      const by = (event.key === 'ArrowUp' ? one : -one) * (event.shiftKey ? 10 : 1);
      setDraft(null);
      offer(Number((value + by).toFixed(6)));
    }
  };

  return (
    <span className="typed">
      <input
        type="text"
        inputMode={name === 'length' || name === 'shutter' || name === 'fNumber' ? 'text' : 'decimal'}
        autoComplete="off"
        spellCheck={false}
        aria-label={spoken === '' ? label : `${label}, ${spoken}`}
        placeholder={placeholder}
        value={draft ?? shown}
        onFocus={({ target }) => target.select()}
        onChange={({ target }) => setDraft(target.value)}
        onBlur={take}
        onKeyDown={onKeyDown}
      />
      {unit !== '' && (value !== undefined || draft || /^[\d.]+$/.test(placeholder)) && (
        <span aria-hidden="true">{unit}</span>
      )}
    </span>
  );
}
