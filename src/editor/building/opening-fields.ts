import type { RunKind } from '../../scene/building/opening-runs.ts';
import type { Field } from '../properties/field.ts';
import { SOLID } from '../properties/kinds/solid.ts';

/** The fields of a row of windows or doors, as the properties have them; without its side, which the drawing shows. */
export function openingFields(kind: RunKind): readonly Field[] {
  const variants = SOLID.sections.flatMap(({ fields }) => fields).filter((field) => field.as === 'variant');
  const lists = variants
    .flatMap(({ variants }) => variants.vehicle?.fields ?? [])
    .filter((field) => field.as === 'list');
  const fields = lists.find(({ path }) => path[0] === kind)?.fields ?? [];
  return fields.filter(({ path }) => path[0] !== 'side');
}
