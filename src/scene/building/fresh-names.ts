import { DICTIONARIES, LISTS, type SceneDocument, SECTIONS } from '../schema/document.ts';
import { WALKER } from '../schema/path.ts';

const LONGEST_ID = 64;
const ROOM_FOR_NUMBER = 6;

/**
 * Every word that a new id must not be: ids, names of own entries (a setup could not tell them apart), and reserved words.
 */
export function takenIds(document: SceneDocument): Set<string> {
  const taken = new Set<string>([...SECTIONS, WALKER]);
  for (const list of LISTS) for (const { id } of document[list] ?? []) taken.add(id);
  for (const { id } of document.site?.keepOut ?? []) taken.add(id);
  for (const dictionary of DICTIONARIES)
    for (const id of Object.keys(document[dictionary] ?? {})) taken.add(id);
  return taken;
}

/** A kebab-case id out of a name, `lamp-3` out of "Lamp 3", with a number after it where it is taken. */
export function freshId(taken: ReadonlySet<string>, name: string): string {
  const wanted = kebab(name);
  if (!taken.has(wanted)) return wanted;
  for (let n = 2; ; n++) if (!taken.has(`${wanted}-${n}`)) return `${wanted}-${n}`;
}

function kebab(name: string): string {
  const plain = name
    .normalize('NFD')
    .replace(/\p{Mn}/gu, '')
    .toLowerCase()
    .replace(/[^a-z0-9]+/g, ' ')
    .trim()
    .slice(0, LONGEST_ID - ROOM_FOR_NUMBER)
    .trim()
    .replaceAll(' ', '-');
  return plain === '' ? 'thing' : plain;
}

/** "Lamp 3" where two lamps are called so already: the first number that no thing of the scene has after this word. */
export function numberedName(document: SceneDocument, word: string): string {
  const names = namesIn(document);
  for (let n = 1; ; n++) if (!names.has(`${word} ${n}`)) return `${word} ${n}`;
}

/** "Key", and "Key 2" where there is one. */
export function freshName(document: SceneDocument, word: string): string {
  const names = namesIn(document);
  if (!names.has(word)) return word;
  for (let n = 2; ; n++) if (!names.has(`${word} ${n}`)) return `${word} ${n}`;
}

function namesIn(document: SceneDocument): Set<string> {
  const names = new Set<string>();
  for (const list of LISTS)
    for (const { name } of document[list] ?? []) if (name !== undefined) names.add(name);
  for (const { name } of document.site?.keepOut ?? []) if (name !== undefined) names.add(name);
  for (const dictionary of DICTIONARIES)
    for (const { name } of Object.values(document[dictionary] ?? {})) if (name !== undefined) names.add(name);
  return names;
}
