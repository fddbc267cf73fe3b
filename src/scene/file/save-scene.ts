import stringify from 'json-stringify-pretty-compact';
import type { z } from 'zod';
import { type SceneDocument, sceneDocument } from '../schema/document.ts';

/**
 * A document as text, always the same text for the same document: fields in the schema's order, dictionaries by name,
 * lists in the author's order, short values on one line. So a diff between two saves shows what was changed.
 */
export function saveScene(document: SceneDocument): string {
  return `${stringify(ordered(sceneDocument, document), { indent: 2, maxLength: 140 })}\n`;
}

type Schema = z.core.$ZodType;

function ordered(schema: Schema | undefined, value: unknown): unknown {
  if (typeof value !== 'object' || value === null) return value;
  const def = schema && (schema._zod.def as unknown as Record<string, unknown>);
  if (def?.innerType) return ordered(def.innerType as Schema, value);
  if (Array.isArray(value)) return value.map((entry) => ordered(def?.element as Schema | undefined, entry));

  const shape = shapeFor(def, value);
  const known = shape ? Object.keys(shape).filter((key) => Object.hasOwn(value, key)) : [];
  const others = Object.keys(value)
    .filter((key) => !shape || !Object.hasOwn(shape, key))
    .sort();
  return Object.fromEntries(
    [...known, ...others].map((key) => [
      key,
      ordered(
        shape?.[key] ?? (def?.valueType as Schema | undefined),
        (value as Record<string, unknown>)[key],
      ),
    ]),
  );
}

/** The field order of an object; of the member that its discriminator chooses, for a union. */
function shapeFor(
  def: Record<string, unknown> | undefined,
  value: object,
): Record<string, Schema> | undefined {
  if (def?.shape) return def.shape as Record<string, Schema>;
  for (const option of (def?.options as Schema[] | undefined) ?? []) {
    const shape = (option._zod.def as unknown as Record<string, unknown>).shape as
      | Record<string, Schema>
      | undefined;
    const key = def?.discriminator as string | undefined;
    const literal =
      key && shape?.[key] && (shape[key]._zod.def as unknown as { values?: unknown[] }).values?.[0];
    if (literal !== undefined && key && (value as Record<string, unknown>)[key] === literal) return shape;
  }
  return undefined;
}
