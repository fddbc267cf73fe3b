import type { Names } from '../paperwork/tables-sheet.ts';
import { entryNamed, LIBRARY } from '../scene/library/library.ts';
import type { SceneDocument } from '../scene/schema/document.ts';

/** What the things of a document are called: their names, or their ids. */
export function namesIn(document: SceneDocument): Names {
  const named = (list: readonly { id: string; name?: string | undefined }[] | undefined, id: string) =>
    list?.find((thing) => thing.id === id)?.name ?? id;
  return {
    mark: (id) => named(document.marks, id),
    lamp: (id) => named(document.lamps, id),
    filter: (id) => entryNamed(document.filters, LIBRARY.filters, id)?.name ?? id,
  };
}
