import { LIBRARY } from '../../scene/library/library.ts';
import type { Referent } from '../../scene/references/reference-fields.ts';
import {
  DICTIONARIES,
  type DictionaryName,
  type ListName,
  type SceneDocument,
} from '../../scene/schema/document.ts';
import { WALKER } from '../../scene/schema/path.ts';
import { entryKey } from './subject.ts';

/** Something that a field may name. */
export interface NamedThing {
  /** As the document writes it. */
  readonly id: string;
  readonly name: string;
  /** By what it is chosen; null for what has no properties. */
  readonly key: string | null;
  /** From the library, unless the scene has its own. */
  readonly fromLibrary: boolean;
  readonly entry: unknown;
}

type Named = { readonly name?: string | undefined };

const NONE = {};
const known = new WeakMap<object, Map<Referent, readonly NamedThing[]>>();

/**
 * All that a reference to `to` may name, the scene's own before the library's, each in its own order. The same list while the
 * part of the document that it comes from is the same.
 */
export function thingsNamed(document: SceneDocument, to: Referent): readonly NamedThing[] {
  const part = to === 'movers' ? document : to === 'reflectances' ? NONE : (document[to] ?? NONE);
  const lists = known.get(part) ?? new Map<Referent, readonly NamedThing[]>();
  known.set(part, lists);
  const things = lists.get(to) ?? listOf(document, to);
  lists.set(to, things);
  return things;
}

function listOf(document: SceneDocument, to: Referent): readonly NamedThing[] {
  if (to === 'movers') {
    const movers = (['figures', 'lamps', 'cameras'] as const).flatMap((list) => thingsNamed(document, list));
    return [...movers, { id: WALKER, name: 'Passer-by', key: null, fromLibrary: false, entry: null }];
  }
  if (to === 'reflectances') {
    return Object.keys(LIBRARY.reflectances).map((id) => ({
      id,
      name: wordsOf(id),
      key: null,
      fromLibrary: true,
      entry: null,
    }));
  }
  if (isDictionary(to)) {
    const own: Readonly<Record<string, Named>> = document[to] ?? {};
    const library: Readonly<Record<string, Named>> = LIBRARY[to];
    const entries = [
      ...Object.entries(own).map(([id, entry]) => ({ id, entry, fromLibrary: false })),
      ...Object.entries(library)
        .filter(([id]) => !Object.hasOwn(own, id))
        .map(([id, entry]) => ({ id, entry, fromLibrary: true })),
    ];
    return entries.map(({ id, entry, fromLibrary }) => ({
      id,
      name: entry.name ?? id,
      key: entryKey(to, id),
      fromLibrary,
      entry,
    }));
  }
  const things: readonly ({ readonly id: string } & Named)[] = document[to as ListName] ?? [];
  return things.map((thing) => ({
    id: thing.id,
    name: thing.name ?? thing.id,
    key: thing.id,
    fromLibrary: false,
    entry: thing,
  }));
}

function isDictionary(to: Referent): to is DictionaryName {
  return (DICTIONARIES as readonly string[]).includes(to);
}

/** "dark-skin" → "Dark skin". */
function wordsOf(id: string): string {
  const words = id.replaceAll('-', ' ');
  return words.charAt(0).toUpperCase() + words.slice(1);
}
