import { type Path, valueAt } from '../problems/problem.ts';
import { REFERENCE_FIELDS, type ReferenceField } from './reference-fields.ts';

/** A reference found in a raw document: where it stands and the name it gives. */
export interface FoundReference {
  readonly at: Path;
  readonly field: ReferenceField;
  readonly name: string;
}

/** All references in a raw document, outside its setups. Works on any shape of data: what is not a name is skipped. */
export function findReferences(raw: unknown): FoundReference[] {
  const found: FoundReference[] = [];
  for (const [collection, fields] of Object.entries(REFERENCE_FIELDS)) {
    const entries = valueAt(raw, [collection]);
    if (typeof entries !== 'object' || entries === null) continue;
    const keys = Array.isArray(entries) ? [...entries.keys()] : Object.keys(entries);
    for (const key of keys) {
      for (const field of fields) collect(raw, [collection, key], field.path, field, found);
    }
  }
  return found;
}

function collect(
  raw: unknown,
  at: Path,
  path: readonly string[],
  field: ReferenceField,
  found: FoundReference[],
): void {
  const [step, ...rest] = path;
  if (step === undefined) {
    const value = valueAt(raw, at);
    const prefix = field.prefix ?? '';
    if (typeof value === 'string' && value.startsWith(prefix)) {
      found.push({ at, field, name: value.slice(prefix.length) });
    }
  } else if (step === '*') {
    const list = valueAt(raw, at);
    if (Array.isArray(list)) for (const i of list.keys()) collect(raw, [...at, i], rest, field, found);
  } else {
    collect(raw, [...at, step], rest, field, found);
  }
}
