import { openRaw } from '../file/open-scene.ts';
import { LIBRARY, type Library } from '../library/library.ts';
import { type Problem, problemAt, shown } from '../problems/problem.ts';
import { rememberLamps } from '../readings/remember-lamps.ts';
import { findReferences } from '../references/find-references.ts';
import { mapReferences } from '../references/map-references.ts';
import { type DictionaryName, LISTS, type ListName, type SceneDocument } from '../schema/document.ts';
import type { Setup } from '../schema/setup.ts';
import { targetOf } from '../setups/apply-setup.ts';
import { mergePatch } from '../setups/merge-patch.ts';
import type { Command } from './command.ts';

export type Applied =
  | { readonly document: SceneDocument; readonly problems?: never }
  | { readonly document?: never; readonly problems: readonly Problem[] };

/** The document after the edit, or why the edit is refused; the given document is never changed. */
export function applyCommand(document: SceneDocument, command: Command, library: Library = LIBRARY): Applied {
  return applyCommands(document, [command], library);
}

/** The same for several edits, one after another, as one: all are taken or none, and only what they come to is checked. */
export function applyCommands(
  document: SceneDocument,
  commands: readonly Command[],
  library: Library = LIBRARY,
): Applied {
  return appliedInTurn(document, commands, library, (before, command) =>
    applyUnchecked(before, command, library),
  );
}

/** Edits done one after another by `apply`, which need not check; what they come to is checked. */
export function appliedInTurn(
  document: SceneDocument,
  commands: readonly Command[],
  library: Library,
  apply: (document: SceneDocument, command: Command) => Applied,
): Applied {
  let now = document;
  let checked = true;
  for (const command of commands) {
    if (!checked && FOLLOWS_REFERENCES.has(command.do)) {
      const opened = openRaw(now, library);
      if (!opened.document) return { problems: opened.problems };
    }
    const applied = apply(now, command);
    if (applied.problems) return applied;
    now = applied.document;
    checked = false;
  }
  if (checked) return { document: now };
  const opened = openRaw(now, library);
  return opened.document ? { document: opened.document } : { problems: opened.problems };
}

/** What goes through the whole document, which has to be sound for that. */
const FOLLOWS_REFERENCES: ReadonlySet<Command['do']> = new Set([
  'rename',
  'remove',
  'rename-entry',
  'remove-entry',
]);

/** The document after the edit, whether it is a valid one or not; refused only where there is nothing to edit. */
export function applyUnchecked(document: SceneDocument, command: Command, library: Library): Applied {
  switch (command.do) {
    case 'add': {
      const list: readonly unknown[] = document[command.to] ?? [];
      const index = command.index ?? list.length;
      return { document: { ...document, [command.to]: list.toSpliced(index, 0, command.thing) } };
    }
    case 'change':
      return changeThing(document, command.id, command.patch);
    case 'move':
      return inList(document, command.id, (list, i) =>
        list.toSpliced(i, 1).toSpliced(command.index, 0, list[i]),
      );
    case 'rename':
      return renameThing(document, command.id, command.to);
    case 'remove':
      return removeThing(document, command.id);
    case 'define': {
      const entries = { ...document[command.in], [command.name]: command.entry };
      return { document: { ...document, [command.in]: entries } as SceneDocument };
    }
    case 'rename-entry':
      return renameEntry(document, command.in, command.name, command.to);
    case 'remove-entry':
      return removeEntry(document, command.in, command.name, library);
    case 'change-section': {
      const patch = { [command.section]: command.patch };
      return { document: mergePatch(document, patch) as SceneDocument };
    }
    case 'describe': {
      const { title, notes } = command;
      return {
        document: {
          ...document,
          ...(title === undefined ? {} : { title }),
          ...(notes === undefined ? {} : { notes }),
        },
      };
    }
  }
}

/** What was metered of a lamp was metered of it as it stood: its readings remember that. */
function changeThing(document: SceneDocument, id: string, patch: object): Applied {
  const changed = inList(document, id, (list, i) => list.with(i, mergePatch(list[i], patch)));
  return changed.document ? { document: rememberLamps(document, changed.document) } : changed;
}

function inList(
  document: SceneDocument,
  id: string,
  change: (list: readonly unknown[], index: number) => readonly unknown[],
): Applied {
  const found = listOf(document, id);
  if (!found) return unknownId(document, id);
  return { document: { ...document, [found.list]: change(document[found.list] ?? [], found.index) } };
}

function listOf(document: SceneDocument, id: string): { list: ListName; index: number } | undefined {
  for (const list of LISTS) {
    const entries: readonly { id: string }[] = document[list] ?? [];
    const index = entries.findIndex((entry) => entry.id === id);
    if (index >= 0) return { list, index };
  }
  return undefined;
}

function unknownId(document: SceneDocument, id: string): Applied {
  return {
    problems: [problemAt(document, [], { found: shown(id), expected: 'the id of a thing in this scene' })],
  };
}

/** A figure, lamp or camera is named as a mover too. */
function names(to: string, list: ListName): boolean {
  return to === list || (to === 'movers' && (list === 'figures' || list === 'lamps' || list === 'cameras'));
}

function renameThing(document: SceneDocument, id: string, to: string): Applied {
  const found = listOf(document, id);
  if (!found) return unknownId(document, id);
  const referring = mapReferences(document, (kind, name) =>
    name === id && names(kind, found.list) ? to : name,
  );
  const followed = inSetups(document, referring, found.list, id, (changes) => renamedKey(changes, id, to));
  return inList(followed, id, (list, i) => list.with(i, { ...(list[i] as object), id: to }));
}

/**
 * Whatever pointed at the thing lets go of it: marks that faced it face the camera, its readings and paths go, setups
 * forget it.
 */
function removeThing(document: SceneDocument, id: string): Applied {
  const found = listOf(document, id);
  if (!found) return unknownId(document, id);
  const without = { ...document, [found.list]: (document[found.list] ?? []).toSpliced(found.index, 1) };
  const referring = mapReferences(without as SceneDocument, (kind, name) =>
    name === id && names(kind, found.list) ? undefined : name,
  );
  const kept: SceneDocument = { ...referring };
  if (referring.readings) {
    // A reading without one of its lamps would say that the others gave all of it.
    const complete = new Map(document.readings?.map((r) => [r.id, r.lamps.length]));
    kept.readings = referring.readings.filter(
      (r) => r.mark !== undefined && r.lamps.length === complete.get(r.id),
    );
  }
  if (referring.paths) kept.paths = referring.paths.filter((p) => p.of !== undefined);
  return { document: inSetups(document, kept, found.list, id, (changes) => withoutKey(changes, id)) };
}

type Changes = Setup['changes'];

/** `edited` with the setups' changes passed through `change`, where the name means to them what is being edited. */
function inSetups(
  document: SceneDocument,
  edited: SceneDocument,
  target: ListName | DictionaryName,
  name: string,
  change: (changes: Changes) => Changes,
): SceneDocument {
  if (!edited.setups || targetOf(document, name)?.in !== target) return edited;
  return {
    ...edited,
    setups: edited.setups.map((setup) => ({ ...setup, changes: change(setup.changes) })),
  };
}

function renameEntry(document: SceneDocument, dictionary: DictionaryName, name: string, to: string): Applied {
  const entries = document[dictionary] ?? {};
  if (!Object.hasOwn(entries, name)) return unknownId(document, name);
  if (Object.hasOwn(entries, to)) {
    const at = [dictionary, to];
    return {
      problems: [problemAt(document, at, { found: `${shown(to)} already in use`, expected: 'a new name' })],
    };
  }
  const referring = mapReferences(document, (kind, used) =>
    kind === dictionary && used === name ? to : used,
  );
  const followed = inSetups(document, referring, dictionary, name, (changes) =>
    renamedKey(changes, name, to),
  );
  const renamed = renamedKey<unknown>(followed[dictionary] ?? {}, name, to);
  return { document: { ...followed, [dictionary]: renamed } as SceneDocument };
}

function removeEntry(
  document: SceneDocument,
  dictionary: DictionaryName,
  name: string,
  library: Library,
): Applied {
  const entries = document[dictionary] ?? {};
  if (!Object.hasOwn(entries, name)) return unknownId(document, name);
  if (!Object.hasOwn(library[dictionary], name)) {
    const users = findReferences(document).filter((r) => r.field.to === dictionary && r.name === name);
    if (users.length > 0) {
      return {
        problems: users.map(({ at }) =>
          problemAt(document, at, {
            found: `${shown(name)} still in use here`,
            expected: 'another name first',
          }),
        ),
      };
    }
  }
  const forgotten = inSetups(document, document, dictionary, name, (changes) => withoutKey(changes, name));
  return { document: { ...forgotten, [dictionary]: withoutKey<unknown>(entries, name) } as SceneDocument };
}

function renamedKey<T>(entries: Readonly<Record<string, T>>, key: string, to: string): Record<string, T> {
  return Object.fromEntries(Object.entries(entries).map(([k, entry]) => [k === key ? to : k, entry]));
}

function withoutKey<T>(entries: Readonly<Record<string, T>>, key: string): Record<string, T> {
  return Object.fromEntries(Object.entries(entries).filter(([k]) => k !== key));
}
