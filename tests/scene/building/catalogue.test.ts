import { describe, expect, it } from 'vitest';
import type { Vec3 } from '../../../src/core/math/vec3.ts';
import { catalogue } from '../../../src/scene/building/catalogue.ts';
import { GROUPS, type Recipe } from '../../../src/scene/building/recipe.ts';
import { LISTS } from '../../../src/scene/schema/document.ts';
import { fullScene } from '../../support/scenes.ts';
import { EMPTY, sceneNamed, seen, withMade } from './support.ts';

const SCENES = {
  empty: EMPTY,
  full: fullScene(),
  ...Object.fromEntries(
    ['night-quay', 'loading-dock', 'apron-flank', 'shopfront-rain', 'test-room', 'lamp-and-card'].map(
      (name) => [name, sceneNamed(name)],
    ),
  ),
};

describe('the catalogue', () => {
  it('has every kind of thing, each once, in the order of the groups', () => {
    const recipes = catalogue(EMPTY);
    expect(new Set(recipes.map(({ id }) => id)).size).toBe(recipes.length);
    expect([...new Set(recipes.map(({ group }) => group))]).toEqual([...GROUPS]);
  });

  for (const [name, document] of Object.entries(SCENES))
    it(`makes only valid things, in place and where the plan is pressed: ${name}`, () => {
      const things = LISTS.flatMap((list) => document[list]?.slice(0, 1).map(({ id }) => id) ?? []);
      for (const chosen of [[], ...things.map((id) => [id])])
        for (const recipe of chosen.length > 0 ? fewOfEach(catalogue(document)) : catalogue(document)) {
          const surroundings = seen(document, chosen);
          if (recipe.lacking(surroundings) !== null) continue;
          const inPlace = recipe.make(surroundings);
          expect(inPlace.commands.length).toBeGreaterThan(0);
          withMade(document, inPlace);
          if (recipe.points.length === 0) continue;
          const points_m = POINTS.slice(0, recipe.points.length);
          withMade(document, recipe.make(surroundings, points_m));
        }
    });
});

const POINTS: readonly Vec3[] = [
  [1.234567, 0, -2],
  [3, 0, 2],
];

/** The first two of a group stand for its others, which differ in figures alone. */
function fewOfEach(recipes: readonly Recipe[]): Recipe[] {
  return GROUPS.flatMap((group) => recipes.filter((recipe) => recipe.group === group).slice(0, 2));
}
