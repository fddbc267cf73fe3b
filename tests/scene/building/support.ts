import { readFileSync } from 'node:fs';
import { expect } from 'vitest';
import type { Made, Surroundings } from '../../../src/scene/building/recipe.ts';
import { applyCommand } from '../../../src/scene/commands/apply-command.ts';
import { problemText } from '../../../src/scene/problems/problem.ts';
import type { SceneDocument } from '../../../src/scene/schema/document.ts';
import { opened } from '../../support/scenes.ts';

export const EMPTY: SceneDocument = { keyfall: 1, title: 'Empty' };

export function sceneNamed(name: string): SceneDocument {
  const url = new URL(`../../../scenes/${name}.json`, import.meta.url);
  return opened(JSON.parse(readFileSync(url, 'utf8')));
}

export function seen(document: SceneDocument, chosen: readonly string[] = []): Surroundings {
  return { document, chosen, camera: document.cameras?.[0] };
}

/** The document with all that was made, each command valid by itself. */
export function withMade(document: SceneDocument, made: Made): SceneDocument {
  return made.commands.reduce((before, command) => {
    const { document: now, problems } = applyCommand(before, command);
    expect(problems?.map((problem) => problemText(problem)) ?? []).toEqual([]);
    return now!;
  }, document);
}
