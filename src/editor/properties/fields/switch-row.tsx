import { Switch } from 'radix-ui';
import { memo } from 'react';
import type { Path } from '../../../scene/problems/problem.ts';
import { MIXED, useDesk, useFieldValue } from '../desk.tsx';
import type { SwitchField } from '../field.ts';
import { FieldRow } from './field-row.tsx';

/** On or off. */
export const SwitchRow = memo(function SwitchRow({
  field,
  at,
}: {
  readonly field: SwitchField;
  readonly at: Path;
}) {
  const desk = useDesk();
  const value = useFieldValue(at);
  const on = typeof value === 'boolean' ? value : field.absent;
  return (
    <FieldRow
      label={field.label}
      path={at}
      help={field.help}
      beside={value === MIXED ? 'several' : undefined}
    >
      <OnOff label={field.label} on={on} onChange={(now) => desk.set(at, now)} />
    </FieldRow>
  );
});

interface OnOffProps {
  readonly label: string;
  readonly on: boolean;
  readonly onChange: (on: boolean) => void;
}

export function OnOff({ label, on, onChange }: OnOffProps) {
  return (
    <Switch.Root className="on-off" aria-label={label} checked={on} onCheckedChange={onChange}>
      <Switch.Thumb className="on-off-thumb">{on ? 'On' : 'Off'}</Switch.Thumb>
    </Switch.Root>
  );
}
