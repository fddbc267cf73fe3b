import { nearestName } from '../problems/nearest-name.ts';
import { problemAt, SceneError, shown } from '../problems/problem.ts';
import type { SceneDocument } from '../schema/document.ts';

const WORDS = { lamps: 'lamp', solids: 'solid', marks: 'mark', paths: 'path' } as const;
type List = keyof typeof WORDS;
type Member<L extends List> = NonNullable<SceneDocument[L]>[number];

/** The thing of a list that has an id. Throws SceneError with the nearest name where none has. */
export function namedIn<L extends List>(document: SceneDocument, list: L, id: string): Member<L> {
  const things = (document[list] ?? []) as readonly Member<L>[];
  const found = things.find((thing) => thing.id === id);
  if (found) return found;
  const ids = things.map((thing) => thing.id);
  throw new SceneError([
    problemAt(document, [list], {
      found: `no ${WORDS[list]} ${shown(id)}`,
      expected: ids.length > 0 ? `one of ${ids.join(', ')}` : `a scene with ${list}`,
      nearest: nearestName(id, ids),
    }),
  ]);
}
