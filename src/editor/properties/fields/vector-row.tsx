import { memo } from 'react';
import type { Path } from '../../../scene/problems/problem.ts';
import { MIXED, useDesk, useFieldValue, useIsOfSetup } from '../desk.tsx';
import type { VectorField } from '../field.ts';
import { limitsOf } from '../schema-limits.ts';
import { FieldRow } from './field-row.tsx';
import { TypedFigure } from './typed-figure.tsx';

/** Two or three figures that belong together: a place, a size, a turn. */
export const VectorRow = memo(function VectorRow({
  field,
  at,
}: {
  readonly field: VectorField;
  readonly at: Path;
}) {
  const ofSetup = useIsOfSetup(at);
  const there = useFieldValue(at) !== undefined;
  if (!there && field.absent) {
    return (
      <FieldRow label={field.label} path={at}>
        <span className="quiet">{field.absent}</span>
      </FieldRow>
    );
  }
  return (
    <fieldset className="field-vector" data-help={field.help}>
      <legend className="field-label">
        {field.label}
        {ofSetup && <span className="of-setup">in this setup</span>}
      </legend>
      <div className="field-parts">
        {field.parts.map((part, index) => (
          <VectorPart key={part} field={field} at={at} index={index} />
        ))}
      </div>
    </fieldset>
  );
});

interface VectorPartProps {
  readonly field: VectorField;
  readonly at: Path;
  readonly index: number;
}

function VectorPart({ field, at, index }: VectorPartProps) {
  const { label, quantity, step, parts, start } = field;
  const desk = useDesk();
  const path = [...at, index];
  const value = useFieldValue(path);
  const put = (typed: number | undefined) =>
    desk.set(at, (old: unknown) => {
      const vector = (old as readonly number[] | undefined) ?? start ?? parts.map(() => 0);
      return vector.with(index, typed ?? start?.[index] ?? 0);
    });
  return (
    <span className="field-part">
      <span className="axis-name" aria-hidden="true">
        {parts[index]}
      </span>
      <TypedFigure
        label={`${label} ${parts[index]}`}
        quantity={quantity}
        value={typeof value === 'number' ? value : undefined}
        placeholder={value === MIXED ? 'several' : String(start?.[index] ?? '')}
        limits={{ ...limitsOf(desk.kind, path)!, optional: start !== undefined }}
        step={step}
        onChange={put}
      />
    </span>
  );
}
