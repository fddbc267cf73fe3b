import type { Made } from '../../scene/building/recipe.ts';
import { choose } from '../store/choose.ts';
import type { EditorStore } from '../store/editor-store.ts';
import { edit } from '../store/edits.ts';
import { setLastAdded } from './last-added.tsx';

/** Adds what was made as one step and chooses it; a new camera is looked through, a new setup is shown. */
export function takeUp(store: EditorStore, made: Made): boolean {
  if (!edit(store, made.commands, made.step)) return false;
  for (const command of made.commands) {
    if (command.do !== 'add') continue;
    if (command.thing.id === made.chosen[0])
      setLastAdded({ id: command.thing.id, name: nameOf(command.thing) });
    if (command.to === 'cameras') store.setState({ camera: command.thing.id });
    if (command.to === 'setups') store.setState({ setup: command.thing.id });
  }
  if (made.chosen.length > 0) choose(store, made.chosen);
  return true;
}

function nameOf(thing: { readonly id: string; readonly name?: string | undefined }): string {
  return thing.name ?? thing.id;
}
