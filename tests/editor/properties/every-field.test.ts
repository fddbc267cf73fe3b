import { describe, expect, it } from 'vitest';
import { z } from 'zod';
import { type KindTable, pathsOf } from '../../../src/editor/properties/field.ts';
import { TABLES } from '../../../src/editor/properties/kinds/tables.ts';
import { schemaOfKind, unwrapped } from '../../../src/editor/properties/schema-limits.ts';
import type { SubjectKind } from '../../../src/editor/properties/subject.ts';
import { DICTIONARIES, LISTS, SECTIONS, sceneDocument } from '../../../src/scene/schema/document.ts';

/** Fields of the schema that no field of the properties shows, and why. */
const ELSEWHERE: Readonly<Record<string, string>> = {
  'document.keyfall': 'the version is what the program writes',
  ...Object.fromEntries(
    [...LISTS, ...DICTIONARIES, ...SECTIONS].map((part) => [
      `document.${part}`,
      'reached through the contents of the scene, with a table of its own',
    ]),
  ),
  ...Object.fromEntries(
    [...LISTS, 'keepOut'].map((kind) => [`${kind}.id`, 'the short name in the heading, changed by renaming']),
  ),
};

/** Every leaf of a schema: `*` for the entries of a list, the variants of a union one beside the other. */
function leaves(schema: z.ZodType, under: readonly string[] = []): string[][] {
  const inner = unwrapped(schema);
  if (inner instanceof z.ZodObject) {
    return Object.entries(inner.shape).flatMap(([key, field]) => leaves(field as z.ZodType, [...under, key]));
  }
  if (inner instanceof z.ZodArray) {
    const element = unwrapped(inner.element as z.ZodType);
    const plain = !(element instanceof z.ZodObject) && !(element instanceof z.ZodTuple);
    return plain ? [[...under]] : leaves(element, [...under, '*']);
  }
  if (inner instanceof z.ZodTuple) return inner.def.items.map((_, i) => [...under, String(i)]);
  if (inner instanceof z.ZodUnion) {
    const objects = inner.options.filter((option) => option instanceof z.ZodObject);
    if (objects.length > 0) return objects.flatMap((option) => leaves(option as z.ZodType, under));
  }
  return [[...under]];
}

function covered(leaf: readonly string[], table: KindTable): boolean {
  const fields = table.sections.flatMap((section) => section.fields);
  return pathsOf(fields).some(
    (path) => path.length <= leaf.length && path.length > 0 && path.every((step, i) => step === leaf[i]),
  );
}

const KINDS = Object.keys(TABLES) as SubjectKind[];

describe('the properties', () => {
  it('have a table for every part of the document', () => {
    const parts = Object.keys(sceneDocument.shape).filter(
      (part) => !['keyfall', 'title', 'notes'].includes(part),
    );
    expect([...KINDS].sort()).toEqual([...parts, 'document', 'keepOut'].sort());
  });

  it.each(KINDS)('reach every field of %s, or say where it is reached', (kind) => {
    const schema = schemaOfKind(kind);
    const wanted =
      kind === 'document' ? Object.keys((schema as z.ZodObject).shape).map((key) => [key]) : leaves(schema);
    expect(wanted.length).toBeGreaterThan(0);
    const missing = wanted
      .filter((leaf) => !covered(leaf, TABLES[kind]) && !ELSEWHERE[`${kind}.${leaf.join('.')}`])
      .map((leaf) => leaf.join('.'));
    expect(missing).toEqual([]);
  });

  it.each(KINDS)('show no field of %s that the schema does not have', (kind) => {
    const schema = schemaOfKind(kind);
    const known = kind === 'document' ? [['title'], ['notes']] : leaves(schema);
    const unknown = pathsOf(TABLES[kind].sections.flatMap((section) => section.fields))
      .filter((path) => path.length > 0)
      .filter(
        (path) => !known.some((leaf) => path.every((step, i) => leaf[i] === undefined || step === leaf[i])),
      )
      .map((path) => path.join('.'));
    expect(unknown).toEqual([]);
  });

  it('finds a field that is missing', () => {
    const { sections } = TABLES.lamps;
    const without: KindTable = { ...TABLES.lamps, sections: sections.slice(1) };
    expect(
      leaves(schemaOfKind('lamps'))
        .filter((leaf) => !covered(leaf, without))
        .map(String),
    ).toContain('level');
  });
});
