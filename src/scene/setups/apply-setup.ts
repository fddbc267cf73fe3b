import { DICTIONARIES, LISTS, type SceneDocument, SECTIONS } from '../schema/document.ts';
import type { Setup } from '../schema/setup.ts';
import { mergePatch } from './merge-patch.ts';

/** Where in a document a setup's change applies. */
export type Target =
  | { readonly in: (typeof LISTS)[number]; readonly index: number }
  | { readonly in: (typeof DICTIONARIES)[number] }
  | { readonly in: (typeof SECTIONS)[number] };

/** A setup may not change other setups, nor what was metered on the night. */
const CHANGEABLE_LISTS = LISTS.filter((list) => list !== 'setups' && list !== 'readings');

/** Finds what an id means to a setup: a listed thing, a part of the document, or an own material, pane, filter, head. */
export function targetOf(document: Partial<SceneDocument>, id: string): Target | undefined {
  return targetsOf(document, id)[0];
}

/** The same with everything else that the id might mean: dictionaries do not share the ids' space of names. */
export function targetsOf(document: Partial<SceneDocument>, id: string): Target[] {
  const targets: Target[] = [];
  for (const list of CHANGEABLE_LISTS) {
    const entries: readonly { id: string }[] = document[list] ?? [];
    const index = entries.findIndex((entry) => entry.id === id);
    if (index >= 0) targets.push({ in: list, index });
  }
  for (const section of SECTIONS) if (id === section) targets.push({ in: section });
  for (const dictionary of DICTIONARIES) {
    const entries = document[dictionary];
    if (entries && Object.hasOwn(entries, id)) targets.push({ in: dictionary });
  }
  return targets;
}

/** All ids that a setup of this document may change, for messages. */
export function changeableIds(document: Partial<SceneDocument>): string[] {
  const listed = CHANGEABLE_LISTS.flatMap((list) => (document[list] ?? []).map((entry) => entry.id));
  const named = DICTIONARIES.flatMap((dictionary) => Object.keys(document[dictionary] ?? {}));
  return [...listed, ...SECTIONS, ...named];
}

/** The document as the setup has it: base with the setup's changes merged in. Changes to unknown ids are skipped. */
export function applySetup(document: SceneDocument, setup: Setup): SceneDocument {
  const changed: Record<string, unknown> = { ...document };
  for (const [id, patch] of Object.entries(setup.changes)) {
    const target = targetOf(document, id);
    if (!target) continue;
    if ('index' in target) {
      const list = [...(changed[target.in] as unknown[])];
      list[target.index] = mergePatch(list[target.index], patch);
      changed[target.in] = list;
    } else if ((SECTIONS as readonly string[]).includes(target.in)) {
      changed[target.in] = mergePatch(changed[target.in], patch);
    } else {
      const entries = changed[target.in] as Record<string, unknown>;
      changed[target.in] = { ...entries, [id]: mergePatch(entries[id], patch) };
    }
  }
  return changed as SceneDocument;
}
