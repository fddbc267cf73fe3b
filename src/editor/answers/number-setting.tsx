import { useId, useState } from 'react';
import { numberFromText, numberText } from '../figures/number-text.ts';

interface NumberSettingProps {
  readonly label: string;
  readonly unit: string;
  /** Undefined: as it is when nothing is set. */
  readonly value: number | undefined;
  /** What holds when nothing is set, as it is written. */
  readonly usual: string;
  readonly from: number;
  readonly to: number;
  readonly onChange: (value: number | undefined) => void;
}

/** One figure of a question, typed; taken on Enter or on leaving it. Left empty, the usual one holds. */
export function NumberSetting(props: NumberSettingProps) {
  const { label, unit, value, usual, from, to, onChange } = props;
  const field = useId();
  const [draft, setDraft] = useState<string | null>(null);
  const figure = draft?.trim().replace(new RegExp(`\\s*${unit}$`, 'i'), '');
  const typed = figure ? numberFromText(figure) : undefined;
  const wrong = typed !== undefined && (typed === null || typed < from || typed > to);
  const take = () => {
    if (draft === null || wrong) return;
    if ((typed ?? undefined) !== value) onChange(typed ?? undefined);
    setDraft(null);
  };
  return (
    <div className="number-setting">
      <label htmlFor={field}>{label}</label>
      <span className="typed">
        <input
          id={field}
          type="text"
          inputMode="decimal"
          autoComplete="off"
          placeholder={usual}
          value={draft ?? (value === undefined ? '' : numberText(value, 3))}
          aria-invalid={wrong}
          aria-describedby={`${field}-note`}
          onChange={({ target }) => setDraft(target.value)}
          onBlur={take}
          onKeyDown={({ key }) => {
            if (key === 'Enter') take();
            else if (key === 'Escape') setDraft(null);
          }}
        />
        <span className="setting-unit" aria-hidden="true">
          {unit}
        </span>
      </span>
      <span id={`${field}-note`} className={wrong ? 'setting-wrong' : 'out-of-sight'}>
        {wrong ? `A number from ${numberText(from, 3)} to ${numberText(to, 3)}` : unit}
      </span>
    </div>
  );
}
