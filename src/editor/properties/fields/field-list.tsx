import type { Path } from '../../../scene/problems/problem.ts';
import type { Field } from '../field.ts';
import { ChoiceRow } from './choice-row.tsx';
import { FigureRow } from './figure-field.tsx';
import { GroupRow } from './group-row.tsx';
import { ListRow } from './list-row.tsx';
import { ReferenceRow } from './reference-row.tsx';
import { ReferencesRow } from './references-row.tsx';
import { SwitchRow } from './switch-row.tsx';
import { TableRow } from './table-row.tsx';
import { TextRow } from './text-row.tsx';
import { VariantRow } from './variant-row.tsx';
import { VectorRow } from './vector-row.tsx';

const HERE: Path = [];

interface FieldListProps {
  readonly fields: readonly Field[];
  /** Where the fields' paths start. */
  readonly under?: Path;
}

export function FieldList({ fields, under = HERE }: FieldListProps) {
  return fields.map((field) => (
    <FieldView key={`${field.label} ${field.path.join('.')}`} field={field} under={under} />
  ));
}

function FieldView({ field, under }: { readonly field: Field; readonly under: Path }) {
  const at = under.length === 0 ? field.path : [...under, ...field.path];
  switch (field.as) {
    case 'figure':
      return <FigureRow field={field} at={at} />;
    case 'vector':
      return <VectorRow field={field} at={at} />;
    case 'choice':
      return <ChoiceRow field={field} at={at} />;
    case 'text':
    case 'notes':
      return <TextRow field={field} at={at} />;
    case 'switch':
      return <SwitchRow field={field} at={at} />;
    case 'reference':
      return <ReferenceRow field={field} at={at} />;
    case 'references':
      return <ReferencesRow field={field} at={at} />;
    case 'group':
      return <GroupRow field={field} at={at} />;
    case 'variant':
      return <VariantRow field={field} at={at} />;
    case 'list':
      return <ListRow field={field} at={at} />;
    case 'table':
      return <TableRow field={field} at={at} />;
    case 'special':
      return <field.Component field={field} at={at} />;
  }
}
