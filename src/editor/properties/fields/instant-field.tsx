import { useState } from 'react';
import { useDesk, useFieldValue } from '../desk.tsx';
import type { SpecialProps } from '../field.ts';
import { FieldRow } from './field-row.tsx';

const INSTANT = /^(\d{4}-\d\d-\d\dT\d\d:\d\d)(?::\d\d(?:\.\d+)?)?(Z|[+-]\d\d:\d\d)$/;

/** A date and time as the clock of the place shows it, and how far that clock is from universal time. */
export function InstantField({ field, at }: SpecialProps) {
  const desk = useDesk();
  const value = useFieldValue(at);
  const [, wall = '', offset = 'Z'] = INSTANT.exec(String(value ?? '')) ?? [];
  const [draft, setDraft] = useState<string | null>(null);
  const shownOffset = offset === 'Z' ? '+00:00' : offset;
  const takeOffset = () => {
    const typed = draft;
    setDraft(null);
    if (typed === null || typed === shownOffset) return;
    const read = offsetFromText(typed);
    if (read === null)
      desk.refuse(`Offset: “${typed.slice(0, 12)}” is not understood. Type +1, -5 or +05:30.`);
    else desk.set(at, `${wall}:00${read}`);
  };
  return (
    <>
      <FieldRow label={field.label} path={at} help={field.help} layout="wide">
        <input
          className="words"
          type="datetime-local"
          aria-label={`${field.label}, date and time`}
          value={wall}
          onChange={({ target }) =>
            target.value !== '' && desk.set(at, `${target.value.slice(0, 16)}:00${offset}`)
          }
        />
      </FieldRow>
      <FieldRow
        label="Clock"
        path={at}
        help="Hours that the place’s clock is ahead of universal time, summer time included."
        layout="figure"
      >
        <span className="typed">
          <input
            type="text"
            aria-label="Offset from universal time"
            value={draft ?? shownOffset}
            onFocus={({ target }) => target.select()}
            onChange={({ target }) => setDraft(target.value)}
            onBlur={takeOffset}
            onKeyDown={(event) => {
              if (event.key === 'Enter') takeOffset();
              if (event.key === 'Escape') setDraft(null);
            }}
          />
          <span aria-hidden="true">UTC</span>
        </span>
      </FieldRow>
    </>
  );
}

/** "+1", "−5", "+05:30", "utc+2" as an offset of ISO 8601; null for anything else. */
export function offsetFromText(text: string): string | null {
  const typed = text
    .trim()
    .replace(/\u2212/g, '-')
    .replace(/^utc/i, '');
  if (/^z?$/i.test(typed)) return 'Z';
  const found = /^([+-]?)(\d{1,2})(?::?([0-5]\d))?$/.exec(typed);
  if (!found || Number(found[2]) > 14) return null;
  const [, sign, hours, minutes = '00'] = found;
  if (Number(hours) === 0 && minutes === '00') return 'Z';
  return `${sign || '+'}${hours!.padStart(2, '0')}:${minutes}`;
}
