import type { Names } from '../../paperwork/tables-sheet.ts';
import { entryNamed, LIBRARY } from '../../scene/library/library.ts';
import type { SceneDocument } from '../../scene/schema/document.ts';
import { nameOfThing } from '../store/name-of-step.ts';

/** What the things of a document are called on its sheets. */
export function namesOfThings(document: SceneDocument): Names {
  const named = (id: string) => nameOfThing(document, id);
  return {
    mark: named,
    lamp: named,
    filter: (id) => entryNamed(document.filters, LIBRARY.filters, id)?.name ?? id,
  };
}
