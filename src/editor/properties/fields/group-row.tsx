import { memo } from 'react';
import type { Path } from '../../../scene/problems/problem.ts';
import { useDesk, useFieldValue } from '../desk.tsx';
import type { GroupField } from '../field.ts';
import { FieldList } from './field-list.tsx';
import { FieldRow } from './field-row.tsx';
import { OnOff } from './switch-row.tsx';

/** Fields that come and go together. */
export const GroupRow = memo(function GroupRow({
  field,
  at,
}: {
  readonly field: GroupField;
  readonly at: Path;
}) {
  const { label, help, start, fields } = field;
  const desk = useDesk();
  const there = useFieldValue(at) !== undefined;
  return (
    <div className="field-group">
      {start && (
        <FieldRow label={label} path={at} help={help}>
          <OnOff label={label} on={there} onChange={(on) => desk.set(at, on ? start : undefined)} />
        </FieldRow>
      )}
      {there && (
        <div className={start ? 'field-group-body' : undefined}>
          <FieldList fields={fields} under={at} />
        </div>
      )}
    </div>
  );
});
