import type { Command } from '../commands/command.ts';
import { entryNamed, LIBRARY } from '../library/library.ts';
import { mapReferences } from '../references/map-references.ts';
import { type DictionaryName, LISTS, type SceneDocument } from '../schema/document.ts';
import { differencePatch } from '../setups/difference-patch.ts';
import { freshId, freshName, takenIds } from './fresh-names.ts';
import type { Made } from './recipe.ts';

/**
 * An own head, material, pane or filter that begins as a copy of one of the library or the document, to be changed at will. The
 * things named in `usedBy` that use the original use the copy from then on.
 * @throws RangeError for a name that neither the document nor the library has
 */
export function makeOwn(
  document: SceneDocument,
  dictionary: DictionaryName,
  original: string,
  usedBy: readonly string[] = [],
): Made {
  const entry = entryNamed<{ name?: string | undefined }>(
    document[dictionary],
    LIBRARY[dictionary],
    original,
  );
  if (!entry)
    throw new RangeError(`"${original}" is not among the ${dictionary} of the document or the library`);
  const name = freshName(document, `${entry.name ?? original}, own`);
  const id = freshId(
    new Set([...takenIds(document), ...Object.keys(LIBRARY[dictionary])]),
    `${original}-own`,
  );
  return {
    commands: [
      { do: 'define', in: dictionary, name: id, entry: { ...entry, name } },
      ...usedBy.flatMap((user) => instead(document, user, dictionary, original, id)),
    ],
    chosen: [id],
    step: `Make ${name}`,
  };
}

/** The change that makes one thing use another entry; none where it does not use the first. */
function instead(
  document: SceneDocument,
  thingId: string,
  dictionary: DictionaryName,
  original: string,
  own: string,
): Command[] {
  for (const list of LISTS) {
    const thing = (document[list] as readonly { id: string }[] | undefined)?.find(({ id }) => id === thingId);
    if (!thing) continue;
    const alone = { keyfall: 1, title: '', [list]: [thing] } as unknown as SceneDocument;
    const mapped = mapReferences(alone, (to, name) => (to === dictionary && name === original ? own : name));
    const patch = differencePatch(thing, (mapped[list] as readonly unknown[])[0]);
    return patch === undefined ? [] : [{ do: 'change', id: thingId, patch: patch as object }];
  }
  return [];
}
