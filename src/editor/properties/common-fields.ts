import type { Field, KindTable } from './field.ts';

/** The fields that all the tables have at the same place and in the same way. */
export function commonFields([first, ...others]: readonly KindTable[]): readonly Field[] {
  if (!first) return [];
  const fieldsOf = (table: KindTable) => table.sections.flatMap((section) => section.fields);
  return fieldsOf(first).filter((field) =>
    others.every((table) => fieldsOf(table).some((other) => sameField(field, other))),
  );
}

function sameField(one: Field, other: Field): boolean {
  if (one.as === 'special' || one.as === 'variant' || one.path.length === 0) return false;
  return one.as === other.as && one.path.join('.') === other.path.join('.');
}
