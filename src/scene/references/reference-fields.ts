import type { DictionaryName, ListName } from '../schema/document.ts';

/** What a reference may name. `movers` are the things that can follow a path. */
export type Referent = ListName | DictionaryName | 'reflectances' | 'movers';

/** One field that names another thing. `*` stands for every member of a list. */
export interface ReferenceField {
  readonly path: readonly string[];
  readonly to: Referent;
  /** What stands before the name in the text, for marks that face a lamp. */
  readonly prefix?: string;
}

/** Every field of the document that names another thing: the one list that checking, renaming and removing go by. */
export const REFERENCE_FIELDS: Readonly<
  Partial<Record<ListName | DictionaryName, readonly ReferenceField[]>>
> = {
  materials: [{ path: ['reflectance'], to: 'reflectances' }],
  solids: [
    { path: ['material'], to: 'materials' },
    { path: ['inside'], to: 'materials' },
    { path: ['pane'], to: 'panes' },
    { path: ['windows', '*', 'pane'], to: 'panes' },
  ],
  figures: [
    { path: ['skin'], to: 'materials' },
    { path: ['upper'], to: 'materials' },
    { path: ['lower'], to: 'materials' },
  ],
  lamps: [
    { path: ['head'], to: 'heads' },
    { path: ['filters', '*'], to: 'filters' },
    { path: ['supply'], to: 'supplies' },
  ],
  marks: [{ path: ['facing'], to: 'lamps', prefix: 'lamp:' }],
  paths: [{ path: ['of'], to: 'movers' }],
  readings: [
    { path: ['mark'], to: 'marks' },
    { path: ['lamps', '*'], to: 'lamps' },
    { path: ['taken', '*', 'lamp'], to: 'lamps' },
    { path: ['taken', '*', 'filters', '*'], to: 'filters' },
  ],
};

const REFERENT_WORDS: Readonly<Record<Referent, string>> = {
  materials: 'a material',
  panes: 'a pane',
  filters: 'a filter',
  heads: 'a head',
  reflectances: 'a reflectance spectrum',
  solids: 'a solid',
  figures: 'a figure',
  lamps: 'a lamp',
  marks: 'a mark',
  cameras: 'a camera',
  supplies: 'a supply',
  paths: 'a path',
  setups: 'a setup',
  readings: 'a reading',
  movers: 'a figure, a lamp or a camera, or "walker"',
};

export function referentWords(referent: Referent): string {
  return REFERENT_WORDS[referent];
}
