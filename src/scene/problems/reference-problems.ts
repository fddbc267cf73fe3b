import type { Library } from '../library/library.ts';
import { findReferences } from '../references/find-references.ts';
import { type Referent, referentWords } from '../references/reference-fields.ts';
import { DICTIONARIES, LISTS, SECTIONS } from '../schema/document.ts';
import { WALKER } from '../schema/path.ts';
import { nearestName } from './nearest-name.ts';
import { MAX_PROBLEMS, type Path, type Problem, pathText, problemAt, shown, valueAt } from './problem.ts';

/** Every name that a reference in a document may use, by what it names. */
export type KnownNames = Readonly<Record<Referent, ReadonlySet<string>>>;

/** Names that stand in a raw document and in the library. Works on any shape of data: what is not a name is skipped. */
export function knownNames(raw: unknown, library: Library): KnownNames {
  const names = { reflectances: new Set(Object.keys(library.reflectances)) } as Record<Referent, Set<string>>;
  for (const list of LISTS) names[list] = new Set(idsIn(raw, [list]).map((entry) => entry.id));
  for (const dictionary of DICTIONARIES) {
    names[dictionary] = new Set([
      ...Object.keys(library[dictionary]),
      ...Object.keys(objectAt(raw, [dictionary])),
    ]);
  }
  names.movers = new Set([...names.figures, ...names.lamps, ...names.cameras, WALKER]);
  return names;
}

/** Words that mean something of their own where an id is expected. */
const RESERVED: readonly string[] = [...SECTIONS, WALKER];
/** Where ids stand: all in one space of names. */
const NAMED: readonly Path[] = [...LISTS.map((list) => [list]), ['site', 'keepOut']];

/** Twice-used ids, and ids that stand for something else. */
export function identityProblems(raw: unknown): Problem[] {
  const problems: Problem[] = [];
  const seen = new Map<string, string>();
  for (const list of NAMED) {
    for (const { id, index } of idsIn(raw, list)) {
      const at = [...list, index, 'id'];
      const first = seen.get(id);
      if (first !== undefined) {
        problems.push(
          problemAt(raw, at, {
            found: `${shown(id)} again (first at ${first})`,
            expected: 'an id of its own',
          }),
        );
      } else {
        seen.set(id, pathText(at.slice(0, -1)));
      }
      if (RESERVED.includes(id)) {
        const expected = `an id other than ${RESERVED.join(', ')}`;
        problems.push(problemAt(raw, at, { found: shown(id), expected }));
      }
    }
  }
  return problems;
}

/** References to things that are not there. */
export function referenceProblems(raw: unknown, names: KnownNames): Problem[] {
  const dangling = findReferences(raw).filter(({ field, name }) => !names[field.to].has(name));
  return dangling.slice(0, MAX_PROBLEMS).map(({ at, field, name }) => {
    const known = names[field.to];
    const prefix = field.prefix ?? '';
    const nearest = nearestName(name, known);
    return problemAt(raw, at, {
      found: shown(prefix + name),
      expected: `the name of ${referentWords(field.to)}${prefix && ` after "${prefix}"`}`,
      nearest: nearest && prefix + nearest,
    });
  });
}

function idsIn(raw: unknown, list: Path): { id: string; index: number }[] {
  return [...listAt(raw, list).entries()].flatMap(([index, entry]) => {
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
