import { type KeyboardEvent, memo, useState } from 'react';
import type { Path } from '../../../scene/problems/problem.ts';
import { MIXED, useDesk, useFieldValue } from '../desk.tsx';
import type { TextField } from '../field.ts';
import { limitsOf } from '../schema-limits.ts';
import { FieldRow } from './field-row.tsx';

/** Words: a name on one line, or notes on several. Taken on leaving them; Escape leaves them as they were. */
export const TextRow = memo(function TextRow({
  field,
  at,
}: {
  readonly field: TextField;
  readonly at: Path;
}) {
  const desk = useDesk();
  const value = useFieldValue(at);
  const [draft, setDraft] = useState<string | null>(null);
  const { longest, optional } = limitsOf(desk.kind, at)!;
  const shown = typeof value === 'string' ? value : '';

  const take = () => {
    const typed = draft?.trim();
    setDraft(null);
    if (typed === undefined || typed === shown) return;
    if (typed !== '') desk.set(at, typed);
    else if (optional) desk.set(at, undefined);
    else desk.refuse(`${field.label} cannot be left empty.`);
  };
  const onKeyDown = (event: KeyboardEvent) => {
    // While words are typed, undo is the browser's own.
    if (event.ctrlKey || event.metaKey) event.stopPropagation();
    if (event.key === 'Escape') setDraft(null);
    if (event.key === 'Enter' && field.as === 'text') take();
  };
  const common = {
    'aria-label': field.label,
    placeholder: value === MIXED ? 'several' : (field.absent ?? ''),
    value: draft ?? shown,
    maxLength: longest,
    spellCheck: false,
    onChange: ({ target }: { readonly target: { readonly value: string } }) => setDraft(target.value),
    onBlur: take,
    onKeyDown,
  };

  return (
    <FieldRow
      label={field.label}
      path={at}
      help={field.help}
      layout={field.as === 'notes' ? 'wide' : 'control'}
    >
      {field.as === 'notes' ? (
        <textarea className="words" rows={5} dir="auto" {...common} />
      ) : (
        <input className="words" type="text" autoComplete="off" dir="auto" {...common} />
      )}
    </FieldRow>
  );
});
