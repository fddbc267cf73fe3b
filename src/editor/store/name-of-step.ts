import type { Command } from '../../scene/commands/command.ts';
import { LISTS, type SceneDocument } from '../../scene/schema/document.ts';

/** What an edit is called in "Undo: …", where who made it has no better name for it. */
export function nameOfStep(document: SceneDocument, command: Command): string {
  switch (command.do) {
    case 'add': {
      const { name, id } = command.thing as { name?: string; id: string };
      return `Add ${name ?? id}`;
    }
    case 'change':
      return `${wordOf(command.patch)} ${nameOfThing(document, command.id)}`;
    case 'move':
      return `Reorder ${nameOfThing(document, command.id)}`;
    case 'rename':
      return `Rename ${nameOfThing(document, command.id)}`;
    case 'remove':
      return `Remove ${nameOfThing(document, command.id)}`;
    case 'define':
      return `Define ${command.name}`;
    case 'rename-entry':
      return `Rename ${command.name}`;
    case 'remove-entry':
      return `Remove ${command.name}`;
    case 'change-section':
      return `Change ${command.section}`;
    case 'describe':
      return command.title === undefined ? 'Notes' : 'Title';
  }
}

/** The name of a listed thing, or its id where it has none. */
export function nameOfThing(document: SceneDocument, id: string): string {
  for (const list of LISTS) {
    const entries: readonly { id: string; name?: string | undefined }[] = document[list] ?? [];
    const thing = entries.find((entry) => entry.id === id);
    if (thing) return thing.name ?? id;
  }
  return id;
}

const WORDS: Readonly<Record<string, string>> = {
  position_m: 'Move',
  aim_m: 'Aim',
  look_m: 'Aim',
  rotation_deg: 'Turn',
  heading_deg: 'Turn',
  level: 'Level of',
  on: 'Switch',
  filters: 'Filters of',
};

/** By the one field that changes; more than one is just a change. */
function wordOf(patch: object): string {
  const [field, ...others] = Object.keys(patch);
  return (others.length === 0 && field !== undefined && WORDS[field]) || 'Change';
}
