import type { DictionaryName, ListName, SceneDocument } from '../schema/document.ts';
import { targetOf } from '../setups/apply-setup.ts';
import { REFERENCE_FIELDS, type ReferenceField, type Referent } from './reference-fields.ts';

/** What becomes of a reference: another name, the same, or gone (undefined). */
export type ReferenceMap = (to: Referent, name: string) => string | undefined;

/**
 * The document with every reference passed through `map`, those inside setups too. A reference that goes is taken out
 * of its list, or its field is left out. Parts in which nothing changes are shared with the old document.
 */
export function mapReferences(document: SceneDocument, map: ReferenceMap): SceneDocument {
  const mapped: Record<string, unknown> = { ...document };
  for (const [collection, fields] of Object.entries(REFERENCE_FIELDS)) {
    const entries = mapped[collection];
    if (Array.isArray(entries)) mapped[collection] = entries.map((entry) => mapFields(entry, fields, map));
    else if (entries) mapped[collection] = mapValues(entries, (entry) => mapFields(entry, fields, map));
  }
  if (document.setups) {
    mapped.setups = document.setups.map((setup) => ({
      ...setup,
      changes: Object.fromEntries(
        Object.entries(setup.changes).map(([id, patch]) => {
          const fields = REFERENCE_FIELDS[targetOf(document, id)?.in as ListName | DictionaryName] ?? [];
          return [id, mapFields(patch, fields, map) as Record<string, unknown>];
        }),
      ),
    }));
  }
  return mapped as SceneDocument;
}

function mapFields(entry: unknown, fields: readonly ReferenceField[], map: ReferenceMap): unknown {
  return fields.reduce((mapped, field) => mapAt(mapped, field.path, field, map), entry);
}

function mapAt(value: unknown, path: readonly string[], field: ReferenceField, map: ReferenceMap): unknown {
  const [step, ...rest] = path;
  if (step === undefined) return mapName(value, field, map);
  if (step === '*') {
    if (!Array.isArray(value)) return value;
    const entries = value.map((entry) => mapAt(entry, rest, field, map));
    return entries.filter((entry) => entry !== undefined);
  }
  if (typeof value !== 'object' || value === null || !Object.hasOwn(value, step)) return value;
  const { [step]: old, ...others } = value as Record<string, unknown>;
  const now = mapAt(old, rest, field, map);
  return now === undefined ? others : { ...value, [step]: now };
}

function mapName(value: unknown, field: ReferenceField, map: ReferenceMap): unknown {
  const prefix = field.prefix ?? '';
  if (typeof value !== 'string' || !value.startsWith(prefix)) return value;
  const name = map(field.to, value.slice(prefix.length));
  return name === undefined ? undefined : prefix + name;
}

function mapValues(entries: object, map: (entry: unknown) => unknown): object {
  return Object.fromEntries(Object.entries(entries).map(([key, entry]) => [key, map(entry)]));
}
