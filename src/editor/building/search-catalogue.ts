import { GROUPS, type Group, type Recipe } from '../../scene/building/recipe.ts';
import { foundBy } from './found-by.ts';

export interface FoundGroup {
  readonly group: Group;
  readonly recipes: readonly Recipe[];
}

/** What answers to what is typed, by group, the best first; all of it in its own order where nothing is typed. */
export function searchCatalogue(recipes: readonly Recipe[], typed: string): readonly FoundGroup[] {
  const worth = new Map(
    recipes.map((recipe) => {
      const also = [...(recipe.also ?? []), recipe.group];
      return [recipe, foundBy(typed, recipe.name, also, recipe.about)];
    }),
  );
  const found = GROUPS.map((group) => ({
    group,
    recipes: recipes
      .filter((recipe) => recipe.group === group && worth.get(recipe)! > 0)
      .sort((a, b) => worth.get(b)! - worth.get(a)!),
  }));
  return found
    .filter(({ recipes: some }) => some.length > 0)
    .sort((a, b) => worth.get(b.recipes[0]!)! - worth.get(a.recipes[0]!)!);
}
