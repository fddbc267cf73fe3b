import { catalogue } from '../../scene/building/catalogue.ts';
import type { Group } from '../../scene/building/recipe.ts';
import type { EditorState } from '../store/editor-state.ts';
import type { EditorStore } from '../store/editor-store.ts';
import { placingNow, startPlacing, stopPlacing } from './placing.ts';
import { putInPlace, recipeNamed } from './put-in-place.ts';
import { surroundingsShown } from './surroundings-shown.ts';

/** Something of building that the list of commands offers. */
export interface BuildingAction {
  readonly id: string;
  readonly name: string;
  readonly keys?: string;
  run(store: EditorStore): void;
  enabled(state: EditorState): boolean;
}

/** What is given to chosen things stands in their properties too, and would drown the rest. */
const LEFT_TO_PANEL: readonly Group[] = ['Filters', 'Materials', 'Panes'];

const things = catalogue({ keyfall: 1, title: '' }).filter(({ group }) => !LEFT_TO_PANEL.includes(group));

export const buildingActions: readonly BuildingAction[] = [
  ...things.map(
    ({ id, name }): BuildingAction => ({
      id: `add.${id}`,
      name: `Add: ${name}`,
      run(store) {
        const recipe = recipeNamed(store, id);
        if (recipe) putInPlace(store, recipe);
      },
      enabled(state) {
        const surroundings = surroundingsShown(state);
        const recipe = things.find((one) => one.id === id)!;
        return surroundings !== undefined && recipe.lacking(surroundings) === null;
      },
    }),
  ),
  ...things
    .filter(({ points }) => points.length > 0)
    .map(
      ({ id, name }): BuildingAction => ({
        id: `place.${id}`,
        name: `Place on the plan: ${name}`,
        run(store) {
          const recipe = recipeNamed(store, id);
          if (recipe) startPlacing(store, recipe);
        },
        enabled: (state) => state.scene !== null,
      }),
    ),
  {
    id: 'place.stop',
    name: 'Put down what is in hand',
    keys: 'Escape',
    run: stopPlacing,
    enabled: () => placingNow() !== null,
  },
];
