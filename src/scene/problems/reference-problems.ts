import type { Library } from '../library/library.ts';
import { findReferences } from '../references/find-references.ts';
import { type Referent, referentWords } from '../references/reference-fields.ts';
import { DICTIONARIES, LISTS, SECTIONS } from '../schema/document.ts';
import { WALKER } from '../schema/path.ts';
import { nearestName } from './nearest-name.ts';
import { type Path, type Problem, problemAt, shown, valueAt } from './problem.ts';

/** Every name that a reference in a document may use, by what it names. */
export type KnownNames = Readonly<Record<Referent, ReadonlySet<string>>>;

/** Names that stand in a raw document and in the library. Works on any shape of data: what is not a name is skipped. */
export function knownNames(raw: unknown, library: Library): KnownNames {
  const names = { reflectances: new Set(Object.keys(library.reflectances)) } as Record<Referent, Set<string>>;
  for (const list of LISTS) names[list] = new Set(idsIn(raw, list).map((entry) => entry.id));
  for (const dictionary of DICTIONARIES) {
    names[dictionary] = new Set([
      ...Object.keys(library[dictionary]),
      ...Object.keys(objectAt(raw, [dictionary])),
    ]);
  }
  names.movers = new Set([...names.figures, ...names.lamps, ...names.cameras, WALKER]);
  return names;
}

/** Twice-used ids, and ids that stand for a part of the document. */
export function identityProblems(raw: unknown): Problem[] {
  const problems: Problem[] = [];
  const seen = new Map<string, string>();
  for (const list of LISTS) {
    for (const { id, index } of idsIn(raw, list)) {
      const at = [list, index, 'id'];
      const first = seen.get(id);
      if (first !== undefined) {
        problems.push(
          problemAt(raw, at, {
            found: `${shown(id)} again (first at ${first})`,
            expected: 'an id of its own',
          }),
        );
      } else {
        seen.set(id, `${list}[${index}]`);
      }
      if ((SECTIONS as readonly string[]).includes(id)) {
        problems.push(
          problemAt(raw, at, { found: shown(id), expected: `an id other than ${SECTIONS.join(', ')}` }),
        );
      }
    }
  }
  return problems;
}

/** References to things that are not there. */
export function referenceProblems(raw: unknown, names: KnownNames): Problem[] {
  return findReferences(raw).flatMap(({ at, field, name }) => {
    const known = names[field.to];
    if (known.has(name)) return [];
    const prefix = field.prefix ?? '';
    const nearest = nearestName(name, known);
    return problemAt(raw, at, {
      found: shown(prefix + name),
      expected: `the name of ${referentWords(field.to)}${prefix && ` after "${prefix}"`}`,
      nearest: nearest && prefix + nearest,
    });
  });
}

function idsIn(raw: unknown, list: string): { id: string; index: number }[] {
  return [...listAt(raw, [list]).entries()].flatMap(([index, entry]) => {
    const id = valueAt(entry, ['id']);
    return typeof id === 'string' ? [{ id, index }] : [];
  });
}

function listAt(raw: unknown, at: Path): readonly unknown[] {
  const value = valueAt(raw, at);
  return Array.isArray(value) ? value : [];
}

function objectAt(raw: unknown, at: Path): object {
  const value = valueAt(raw, at);
  return typeof value === 'object' && value !== null && !Array.isArray(value) ? value : {};
}
