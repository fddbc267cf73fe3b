import type { DictionaryName } from '../../scene/schema/document.ts';

const DICTIONARY_OF: Readonly<Record<string, DictionaryName>> = {
  head: 'heads',
  filter: 'filters',
  material: 'materials',
  pane: 'panes',
};

/** Which entry of the library or the scene a recipe stands for, if any: `head:bulb-60` is the head `bulb-60`. */
export function entryOf(
  recipeId: string,
): { readonly dictionary: DictionaryName; readonly name: string } | null {
  const colon = recipeId.indexOf(':');
  const dictionary = DICTIONARY_OF[recipeId.slice(0, colon)];
  return dictionary === undefined ? null : { dictionary, name: recipeId.slice(colon + 1) };
}
