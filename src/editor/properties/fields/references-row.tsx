import { memo } from 'react';
import type { Path } from '../../../scene/problems/problem.ts';
import { MIXED, useDesk, useFieldValue } from '../desk.tsx';
import type { ReferencesField } from '../field.ts';
import { OpenThing } from '../open-thing.tsx';
import { limitsOf } from '../schema-limits.ts';
import { useThingsNamed } from '../use-things-named.ts';
import { FieldRow } from './field-row.tsx';
import { Pick } from './pick.tsx';
import { pickOptions } from './pick-options.tsx';

/** Names of other things, each with the way to it. */
export const ReferencesRow = memo(function ReferencesRow({
  field,
  at,
}: {
  readonly field: ReferencesField;
  readonly at: Path;
}) {
  const { label, to, add, help } = field;
  const desk = useDesk();
  const value = useFieldValue(at);
  const things = useThingsNamed(to);
  const ids = Array.isArray(value) ? (value as readonly string[]) : [];
  const { shortest = 0, optional, longest = Number.POSITIVE_INFINITY } = limitsOf(desk.kind, at)!;
  const put = (now: readonly string[]) => {
    if (now.length >= Math.max(shortest, 1)) desk.set(at, now);
    else if (optional) desk.set(at, undefined);
    else desk.refuse(`${label}: at least ${shortest}, please.`);
  };
  return (
    <FieldRow label={label} path={at} help={help} layout="wide">
      <div className="named-list">
        {value === MIXED && <p className="quiet">several</p>}
        {ids.map((id) => {
          const thing = things.find((one) => one.id === id);
          const name = thing?.name ?? id;
          return (
            <span key={id} className="named-entry">
              <bdi>{name}</bdi>
              {thing?.key && <OpenThing id={thing.key} name={name} />}
              <button
                type="button"
                aria-label={`Take away ${name}`}
                onClick={() => put(ids.filter((one) => one !== id))}
              >
                <span aria-hidden="true">×</span>
              </button>
            </span>
          );
        })}
        {ids.length < longest && (
          <Pick
            label={add}
            shown={<span className="quiet">{add}…</span>}
            options={() => pickOptions(things, to).filter(({ value: id }) => !ids.includes(id))}
            onPick={(picked) => put([...ids, picked])}
          />
        )}
      </div>
    </FieldRow>
  );
});
