import type { Command } from '../../scene/commands/command.ts';
import { entryNamed, LIBRARY } from '../../scene/library/library.ts';
import {
  DICTIONARIES,
  type DictionaryName,
  LISTS,
  type ListName,
  type SceneDocument,
  SECTIONS,
  type SectionName,
} from '../../scene/schema/document.ts';
import { differencePatch } from '../../scene/setups/difference-patch.ts';
import { hazeBoxId } from '../plan/arrange/plan-things.ts';

/** The kinds of things that have properties. */
export type SubjectKind = ListName | DictionaryName | SectionName | 'keepOut' | 'document';

/** One thing that is chosen: where it stands in the document, and what it is there. */
export interface Subject {
  readonly kind: SubjectKind;
  /** Its id, its name in a dictionary, or the word for a section. */
  readonly id: string;
  readonly thing: object;
  /** From the library and not yet the scene's own: its first change makes it so. */
  readonly fromLibrary: boolean;
}

export const DOCUMENT: SubjectKind = 'document';

/** How an entry of a dictionary is chosen beside things with ids: ids have no slash. */
export function entryKey(dictionary: DictionaryName, name: string): string {
  return `${dictionary}/${name}`;
}

const NOTHING_YET: Readonly<Record<SectionName, object>> = { haze: {}, site: {}, calibration: {} };

/**
 * What an id that was chosen means: a thing with that id, a keep-out area, the haze for one of its boxes, a section of the scene, or an entry of one of its
 * dictionaries, "materials/hull-gloss" or the bare name. Undefined for what is (no longer) there.
 */
export function subjectOf(document: SceneDocument, id: string): Subject | undefined {
  for (const list of LISTS) {
    const things: readonly { id: string }[] = document[list] ?? [];
    const thing = things.find((one) => one.id === id);
    if (thing) return { kind: list, id, thing, fromLibrary: false };
  }
  const area = document.site?.keepOut?.find((one) => one.id === id);
  if (area) return { kind: 'keepOut', id, thing: area, fromLibrary: false };
  const section = SECTIONS.find((one) => one === id);
  if (section) {
    return { kind: section, id, thing: document[section] ?? NOTHING_YET[section], fromLibrary: false };
  }
  if (isHazeBox(document, id)) return subjectOf(document, 'haze');
  const [dictionary, name] = id.includes('/') ? id.split('/') : [undefined, id];
  for (const kind of DICTIONARIES) {
    if (dictionary !== undefined && dictionary !== kind) continue;
    const own: Readonly<Record<string, object>> | undefined = document[kind];
    const thing =
      dictionary === undefined
        ? own && Object.hasOwn(own, name!) && own[name!]
        : entryNamed(own, LIBRARY[kind], name!);
    if (thing) return { kind, id: name!, thing, fromLibrary: !own || !Object.hasOwn(own, name!) };
  }
  return undefined;
}

/** The boxes that haze hangs in have no ids of their own: they are set in the list of the haze. */
function isHazeBox(document: SceneDocument, id: string): boolean {
  return document.haze?.regions?.some((_, i) => id === hazeBoxId(i)) ?? false;
}

export function documentSubject(document: SceneDocument): Subject {
  return { kind: DOCUMENT, id: DOCUMENT, thing: document, fromLibrary: false };
}

/** There is one of it, and no other name for it. */
export function nameless({ kind }: Subject): boolean {
  return kind === DOCUMENT || kind === 'haze' || kind === 'site' || kind === 'calibration';
}

export function isListed(kind: SubjectKind): kind is ListName {
  return (LISTS as readonly string[]).includes(kind);
}

export function isEntry(kind: SubjectKind): kind is DictionaryName {
  return (DICTIONARIES as readonly string[]).includes(kind);
}

/** A thing and what it is to become. */
export interface Change {
  readonly subject: Subject;
  readonly after: object;
}

/** The edits that make things what they are to become; none for those that are so already. */
export function changeCommands(document: SceneDocument, changes: readonly Change[]): Command[] {
  const areas = changes.filter(({ subject }) => subject.kind === 'keepOut');
  const others = changes.filter(({ subject }) => subject.kind !== 'keepOut');
  return [...others.flatMap((change) => changeCommand(change) ?? []), ...areaCommands(document, areas)];
}

function changeCommand({ subject: { kind, id, thing }, after }: Change): Command | undefined {
  const patch = differencePatch(thing, after) as object | undefined;
  if (patch === undefined) return undefined;
  if (isListed(kind)) return { do: 'change', id, patch };
  if (isEntry(kind)) return { do: 'define', in: kind, name: id, entry: after };
  if (kind === 'document') {
    const { title, notes } = patch as { title?: string; notes?: string | null };
    return {
      do: 'describe',
      ...(title === undefined ? {} : { title }),
      ...(notes === undefined ? {} : { notes: notes ?? '' }),
    };
  }
  return { do: 'change-section', section: kind as SectionName, patch };
}

/** Areas are one list of the site, which is replaced whole. */
function areaCommands(document: SceneDocument, changes: readonly Change[]): Command[] {
  if (changes.every(({ subject, after }) => differencePatch(subject.thing, after) === undefined)) return [];
  const keepOut = (document.site?.keepOut ?? []).map(
    (area) => changes.find(({ subject }) => subject.id === area.id)?.after ?? area,
  );
  return [{ do: 'change-section', section: 'site', patch: { keepOut } }];
}

/** The edit that takes the thing out of the scene; undefined for what cannot go. */
export function removeCommand(
  document: SceneDocument,
  { kind, id, fromLibrary }: Subject,
): Command | undefined {
  if (isListed(kind)) return { do: 'remove', id };
  if (isEntry(kind)) return fromLibrary ? undefined : { do: 'remove-entry', in: kind, name: id };
  if (kind === 'keepOut') {
    const others = (document.site?.keepOut ?? []).filter((area) => area.id !== id);
    return {
      do: 'change-section',
      section: 'site',
      patch: { keepOut: others.length > 0 ? others : null },
    };
  }
  return undefined;
}

/** The edit that gives the thing another id or name; undefined for what has none. */
export function renameCommand(document: SceneDocument, subject: Subject, to: string): Command | undefined {
  const { kind, id, thing, fromLibrary } = subject;
  if (isListed(kind)) return { do: 'rename', id, to };
  if (isEntry(kind)) return fromLibrary ? undefined : { do: 'rename-entry', in: kind, name: id, to };
  if (kind === 'keepOut') return areaCommands(document, [{ subject, after: { ...thing, id: to } }])[0];
  return undefined;
}
