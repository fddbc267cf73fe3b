import { memo } from 'react';
import type { Path } from '../../../scene/problems/problem.ts';
import { MIXED, useDesk, useFieldValue } from '../desk.tsx';
import { type Field, pathsOf, type VariantField } from '../field.ts';
import { FieldList } from './field-list.tsx';
import { FieldRow } from './field-row.tsx';

/** One of several sets of fields. What the new one has in common with the old one is kept. */
export const VariantRow = memo(function VariantRow({
  field,
  at,
}: {
  readonly field: VariantField;
  readonly at: Path;
}) {
  const { label, help, by, variants } = field;
  const desk = useDesk();
  const path = [...at, by];
  const kind = useFieldValue(path);
  const chosen = typeof kind === 'string' ? kind : '';
  return (
    <>
      <FieldRow label={label} path={path} help={help}>
        <select
          aria-label={label}
          value={chosen}
          onChange={({ target }) =>
            desk.set(at, (old: unknown) => becoming(field, old as Data, target.value))
          }
        >
          {kind === MIXED && <option value="">several</option>}
          {Object.entries(variants).map(([value, { words, comesBy }]) => {
            const barred = comesBy !== undefined && value !== chosen;
            return (
              <option key={value} value={value} disabled={barred}>
                {barred ? `${words}: ${comesBy}` : words}
              </option>
            );
          })}
        </select>
      </FieldRow>
      {variants[chosen] && <FieldList fields={variants[chosen].fields} under={at} />}
    </>
  );
});

type Data = Readonly<Record<string, unknown>>;

/** The data as another variant: its own start, with what stands in both, and what belongs to no variant, kept. */
export function becoming({ by, variants }: VariantField, old: Data, to: string): Data {
  const { fields, ...variant } = variants[to]!;
  const start = typeof variant.start === 'function' ? variant.start(old) : variant.start;
  const ofVariants = new Set(Object.values(variants).flatMap((variant) => topNames(variant.fields)));
  const ofThis = new Set(topNames(fields));
  const sameForm = (key: string) => {
    const fresh = (start as Data)[key];
    return fresh === undefined || !Array.isArray(fresh) || (old[key] as unknown[]).length === fresh.length;
  };
  const kept = Object.entries(old).filter(
    ([key]) => key !== by && (!ofVariants.has(key) || (ofThis.has(key) && sameForm(key))),
  );
  return { [by]: to, ...start, ...Object.fromEntries(kept) };
}

function topNames(fields: readonly Field[]): string[] {
  return pathsOf(fields).map(([name]) => name!);
}
