import type { DictionaryName, ListName, SectionName } from '../schema/document.ts';

/**
 * An edit as plain data: it can be named, kept, sent to a worker and replayed. Patches are JSON merge patches
 * (RFC 7396). Undo keeps documents, which share all that an edit does not touch. A change of a lamp is remembered by the
 * readings that were taken with it.
 */
export type Command =
  | {
      readonly do: 'add';
      readonly to: ListName;
      readonly thing: { readonly id: string };
      readonly index?: number;
    }
  | { readonly do: 'change'; readonly id: string; readonly patch: object }
  | { readonly do: 'move'; readonly id: string; readonly index: number }
  | { readonly do: 'rename'; readonly id: string; readonly to: string }
  | { readonly do: 'remove'; readonly id: string }
  | { readonly do: 'define'; readonly in: DictionaryName; readonly name: string; readonly entry: object }
  | { readonly do: 'rename-entry'; readonly in: DictionaryName; readonly name: string; readonly to: string }
  | { readonly do: 'remove-entry'; readonly in: DictionaryName; readonly name: string }
  | { readonly do: 'change-section'; readonly section: SectionName; readonly patch: object | null }
  | { readonly do: 'describe'; readonly title?: string; readonly notes?: string };
