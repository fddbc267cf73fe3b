import { memo, useState } from 'react';
import type { Path } from '../../../scene/problems/problem.ts';
import { MIXED, useDesk, useFieldValue } from '../desk.tsx';
import type { ListField } from '../field.ts';
import { limitsOf } from '../schema-limits.ts';
import { FieldList } from './field-list.tsx';
import { FieldRow } from './field-row.tsx';

const SHOWN_AT_ONCE = 12;

/** Entries with fields of their own, one under the other. */
export const ListRow = memo(function ListRow({
  field,
  at,
}: {
  readonly field: ListField;
  readonly at: Path;
}) {
  const { label, help, one, next, fields } = field;
  const desk = useDesk();
  const value = useFieldValue(at);
  const [room, setRoom] = useState(SHOWN_AT_ONCE);
  const entries = Array.isArray(value) ? (value as readonly unknown[]) : [];
  const { shortest = 0, longest = Number.POSITIVE_INFINITY, optional } = limitsOf(desk.kind, at)!;
  const put = (now: readonly unknown[]) => {
    if (now.length < shortest && !(optional && now.length === 0)) {
      desk.refuse(`${label}: at least ${shortest}, please.`);
    } else desk.set(at, now.length === 0 && optional ? undefined : now);
  };
  if (value === MIXED) {
    return (
      <FieldRow label={label} path={at} help={help}>
        <span className="quiet">several</span>
      </FieldRow>
    );
  }
  return (
    <FieldRow label={label} path={at} help={help} layout="wide">
      <ol className="entry-list">
        {entries.slice(0, room).map((_, index) => (
          // biome-ignore lint/suspicious/noArrayIndexKey: entries have no other identity
          <li key={index} className="entry">
            <fieldset>
              <legend className="entry-head">
                <span>
                  {one} {index + 1}
                </span>
              </legend>
              <FieldList fields={fields} under={[...at, index]} />
              <button
                type="button"
                className="entry-away"
                aria-label={`Take away ${one.toLowerCase()} ${index + 1}`}
                onClick={() => put(entries.toSpliced(index, 1))}
              >
                Take away
              </button>
            </fieldset>
          </li>
        ))}
      </ol>
      {entries.length > room && (
        <button type="button" onClick={() => setRoom(room + SHOWN_AT_ONCE)}>
          {entries.length - room} more
        </button>
      )}
      {next && entries.length < longest && (
        <button
          type="button"
          onClick={() => {
            setRoom(Math.max(room, entries.length + 1));
            put([...entries, next(entries.at(-1))]);
          }}
        >
          Add {one.toLowerCase()}
        </button>
      )}
    </FieldRow>
  );
});
