import { type Applied, appliedInTurn, applyCommand, applyUnchecked } from '../commands/apply-command.ts';
import type { Command } from '../commands/command.ts';
import { openRaw } from '../file/open-scene.ts';
import { LIBRARY, type Library } from '../library/library.ts';
import { problemAt } from '../problems/problem.ts';
import type { SceneDocument } from '../schema/document.ts';
import type { Setup } from '../schema/setup.ts';
import { applySetup, targetOf } from './apply-setup.ts';
import { differencePatch } from './difference-patch.ts';

/**
 * The document after an edit that was made while one of its setups was shown. A change becomes the setup's own, and what
 * stands as in the base again is forgotten by it. What a setup cannot hold (things added, removed, renamed, what was
 * metered, words) is done to the base, and so to every setup.
 */
export function editInSetup(
  document: SceneDocument,
  setupId: string,
  command: Command,
  library: Library = LIBRARY,
): Applied {
  const inSetup = changedInSetup(document, setupId, command, library, applyCommand);
  if (inSetup.problems) return inSetup;
  const opened = openRaw(inSetup.document, library);
  return opened.document ? { document: opened.document } : { problems: opened.problems };
}

/** The same for several edits, one after another, as one: all are taken or none, and only what they come to is checked. */
export function editAllInSetup(
  document: SceneDocument,
  setupId: string,
  commands: readonly Command[],
  library: Library = LIBRARY,
): Applied {
  if (commands.length === 1) return editInSetup(document, setupId, commands[0]!, library);
  return appliedInTurn(document, commands, library, (before, command) =>
    changedInSetup(before, setupId, command, library, applyUnchecked),
  );
}

function changedInSetup(
  document: SceneDocument,
  setupId: string,
  command: Command,
  library: Library,
  apply: typeof applyUnchecked,
): Applied {
  const setup = document.setups?.find(({ id }) => id === setupId);
  const name = nameOfChange(command);
  if (!setup || name === undefined || !targetOf(document, name)) return apply(document, command, library);
  const edited = apply(applySetup(document, setup), command, library);
  if (edited.problems) return edited;
  const before = thingNamed(document, name);
  const after = thingNamed(edited.document, name);
  if (before !== undefined && after === undefined) {
    const problem = problemAt(document, [name], {
      found: `"${name}" taken away in a setup`,
      expected: 'it to be taken away in the base, or made ineffective here',
    });
    return { problems: [problem] };
  }
  const { [name]: _, ...others } = setup.changes;
  const patch = differencePatch(before, after) as Setup['changes'][string] | undefined;
  const changed = { ...setup, changes: patch === undefined ? others : { ...others, [name]: patch } };
  return {
    document: { ...document, setups: document.setups!.map((one) => (one === setup ? changed : one)) },
  };
}

/** Under which name a setup keeps this change; undefined for edits that it cannot keep. */
function nameOfChange(command: Command): string | undefined {
  switch (command.do) {
    case 'change':
      return command.id;
    case 'define':
      return command.name;
    case 'change-section':
      return command.section;
    default:
      return undefined;
  }
}

function thingNamed(document: SceneDocument, name: string): unknown {
  const target = targetOf(document, name);
  if (!target) return undefined;
  if ('index' in target) return document[target.in]?.[target.index];
  const part: unknown = document[target.in];
  return target.in === name ? part : (part as Record<string, unknown>)[name];
}
