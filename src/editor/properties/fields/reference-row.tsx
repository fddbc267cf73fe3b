import { memo } from 'react';
import type { Path } from '../../../scene/problems/problem.ts';
import { MIXED, useDesk, useFieldValue } from '../desk.tsx';
import type { ReferenceField } from '../field.ts';
import { OpenThing } from '../open-thing.tsx';
import { limitsOf } from '../schema-limits.ts';
import { useThingsNamed } from '../use-things-named.ts';
import { FieldRow } from './field-row.tsx';
import { Pick } from './pick.tsx';
import { pickOptions, swatchOf } from './pick-options.tsx';

const NONE = '';

/** The name of another thing, with the way to it. */
export const ReferenceRow = memo(function ReferenceRow({
  field,
  at,
}: {
  readonly field: ReferenceField;
  readonly at: Path;
}) {
  const { label, to, absent, help } = field;
  const desk = useDesk();
  const value = useFieldValue(at);
  const things = useThingsNamed(to);
  const thing = things.find(({ id }) => id === value);
  const optional = limitsOf(desk.kind, at)!.optional;
  return (
    <FieldRow label={label} path={at} help={help}>
      <span className="field-reference">
        <Pick
          label={thing ? `${label}: ${thing.name}` : label}
          chosen={thing?.id}
          shown={
            thing ? (
              <>
                {swatchOf(thing, to)}
                <bdi>{thing.name}</bdi>
              </>
            ) : (
              <span className="quiet">{value === MIXED ? 'several' : (absent ?? 'none')}</span>
            )
          }
          options={() => [
            ...(optional && absent ? [{ value: NONE, name: absent }] : []),
            ...pickOptions(things, to),
          ]}
          onPick={(picked) => desk.set(at, picked === NONE ? undefined : picked)}
        />
        {thing?.key && <OpenThing id={thing.key} name={thing.name} />}
      </span>
    </FieldRow>
  );
});
