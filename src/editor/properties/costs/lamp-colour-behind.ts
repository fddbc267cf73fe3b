import { entryNamed, LIBRARY } from '../../../scene/library/library.ts';
import type { SceneDocument } from '../../../scene/schema/document.ts';
import type { Lamp } from '../../../scene/schema/lamp.ts';
import { type FilterCost, filterCost } from './filter-cost.ts';

/** Colour of a lamp's light behind its filters, and what they take; null where its spectrum is none. */
export function colourOfLamp(document: SceneDocument, lamp: Lamp): FilterCost | null {
  const head = entryNamed(document.heads, LIBRARY.heads, lamp.head);
  const filters = (lamp.filters ?? []).flatMap(
    (name) => entryNamed(document.filters, LIBRARY.filters, name) ?? [],
  );
  try {
    return head ? filterCost(head.spectrum, filters) : null;
  } catch (error) {
    if (error instanceof RangeError) return null;
    throw error;
  }
}
