import { memo } from 'react';
import type { Path } from '../../../scene/problems/problem.ts';
import { MIXED, useDesk, useFieldValue } from '../desk.tsx';
import type { ChoiceField } from '../field.ts';
import { limitsOf } from '../schema-limits.ts';
import { FieldRow } from './field-row.tsx';

/** One of a few words. */
export const ChoiceRow = memo(function ChoiceRow({
  field,
  at,
}: {
  readonly field: ChoiceField;
  readonly at: Path;
}) {
  const desk = useDesk();
  const value = useFieldValue(at);
  const { choices, optional } = limitsOf(desk.kind, at)!;
  const chosen = value === undefined ? '' : value === MIXED ? 'several' : String(value);
  return (
    <FieldRow label={field.label} path={at} help={field.help}>
      <select
        aria-label={field.label}
        value={chosen}
        onChange={({ target }) =>
          desk.set(
            at,
            choices.find((choice) => String(choice) === target.value),
          )
        }
      >
        {(optional || chosen === '') && <option value="">{field.absent ?? ''}</option>}
        {chosen === 'several' && (
          <option value="several" disabled>
            several
          </option>
        )}
        {Object.entries(field.words).map(([choice, words]) => (
          <option key={choice} value={choice}>
            {words}
          </option>
        ))}
      </select>
    </FieldRow>
  );
});
