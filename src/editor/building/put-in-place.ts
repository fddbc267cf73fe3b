import { catalogue } from '../../scene/building/catalogue.ts';
import type { Recipe } from '../../scene/building/recipe.ts';
import type { EditorStore } from '../store/editor-store.ts';
import { stopPlacing } from './placing.ts';
import { surroundingsShown } from './surroundings-shown.ts';
import { takeUp } from './take-up.ts';

/** Adds a thing in a sensible place, or gives it to what is chosen. Whether it was added. */
export function putInPlace(store: EditorStore, recipe: Recipe): boolean {
  stopPlacing();
  const surroundings = surroundingsShown(store.getState());
  if (!surroundings || recipe.lacking(surroundings) !== null) return false;
  return takeUp(store, recipe.make(surroundings));
}

export function recipeNamed(store: EditorStore, id: string): Recipe | undefined {
  const surroundings = surroundingsShown(store.getState());
  return surroundings && catalogue(surroundings.document).find((recipe) => recipe.id === id);
}
